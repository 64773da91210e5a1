#include "scene/room/room_check.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "scene/model/layout.h"
#include "scene/room/furnishing_check.h"

namespace rakelight {
namespace {

/// A stone or a piece stands no higher than this above the substrate.
double highest_mm(const Layout& layout) {
    double thickest = 0, proudest = 0;
    for (const Material& m : layout.stock) thickest = std::max(thickest, static_cast<double>(m.thickness_mm));
    for (const Field& f : layout.fields) thickest = std::max(thickest, f.thickness_mm);
    for (const PlacedStone& s : layout.stones) proudest = std::max(proudest, s.proud_mm);
    return layout.panel.substrate.bed_mm + thickest + proudest;
}

bool inside_panel(glm::dvec3 p, const HungPanel& panel) {
    const double back_mm =
        off_wall_mm(panel.layout->panel);  // the back of the hanging gap lies so far behind
    const glm::dvec3 at = panel.to_panel(p - panel.centre_mm + glm::dvec3(0, 0, back_mm));
    return std::abs(at.x) <= panel.half_mm.x && std::abs(at.y) <= panel.half_mm.y && at.z >= 0 &&
           at.z <= back_mm + highest_mm(*panel.layout);
}

bool inside(const glm::dvec3& p, const Furniture& box) {
    const auto [low, high] = corners_of(box);
    return glm::all(glm::greaterThanEqual(p, low)) && glm::all(glm::lessThanEqual(p, high));
}

}  // namespace

std::string why_not_free(glm::dvec3 p, const Layout& layout) {
    const Room& room = layout.room;
    const std::string place = fmt::format("[{:.6g}, {:.6g}, {:.6g}]", p.x, p.y, p.z);
    if (p.z <= 0) return "found " + place + " behind the wall, expected a distance from it above 0 mm";
    if (std::abs(p.x) >= room.width_mm / 2 || p.y <= 0 || p.y >= room.height_mm || p.z >= room.depth_mm)
        return fmt::format(
            "found {} outside the room, expected within [{:.6g}, 0, 0] to [{:.6g}, {:.6g}, {:.6g}] mm", place,
            -room.width_mm / 2, room.width_mm / 2, room.height_mm, room.depth_mm);
    for (const HungPanel& panel : hung_panels(layout))
        if (inside_panel(p, panel))
            return "found " + place + " inside " +
                   (panel.layout == &layout ? "the panel" : "the panel beside it") +
                   ", expected a point in the open room";
    for (const Furniture& box : room.furniture)
        if (inside(p, box))
            return "found " + place + " inside " + box.name + ", expected a point in the open room";
    return "";
}

double reach_mm(const HungPanel& panel) {
    return panel.centre_mm.z + highest_mm(*panel.layout) + panel.half_mm.y * panel.axes[1].z;
}

}  // namespace rakelight
