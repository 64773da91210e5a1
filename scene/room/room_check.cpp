#include "scene/room/room_check.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "scene/room/furnishing_check.h"

namespace rakelight {
namespace {

/// A stone or a piece stands no higher than this above the substrate.
double highest_mm(const Layout& layout) {
    double thickest = 0, proudest = 0;
    for (const Material& m : layout.stock) thickest = std::max(thickest, static_cast<double>(m.thickness_mm));
    for (const Field& f : layout.fields) thickest = std::max(thickest, f.thickness_mm);
    for (const PlacedStone& s : layout.stones) proudest = std::max(proudest, s.proud_mm);
    return layout.substrate.bed_mm + thickest + proudest;
}

bool inside_panel(glm::dvec3 p, const HungPanel& panel, double lean_deg) {
    const Layout& layout = *panel.layout;
    const double lean = glm::radians(lean_deg);
    const double up = p.y - panel.centre_mm.y;
    // From the back of the hanging gap.
    const double out = p.z - panel.centre_mm.z + kWallGap_mm + layout.substrate.thickness_mm;
    const double v = up * std::cos(lean) + out * std::sin(lean);
    const double w = out * std::cos(lean) - up * std::sin(lean);
    return std::abs(p.x - panel.centre_mm.x) <= layout.width_mm / 2 && std::abs(v) <= layout.height_mm / 2 &&
           w >= 0 && w <= kWallGap_mm + layout.substrate.thickness_mm + highest_mm(layout);
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
        if (inside_panel(p, panel, room.lean_deg))
            return "found " + place + " inside " +
                   (panel.layout == &layout ? "the panel" : "the panel beside it") +
                   ", expected a point in the open room";
    for (const Furniture& box : room.furniture)
        if (inside(p, box))
            return "found " + place + " inside " + box.name + ", expected a point in the open room";
    return "";
}

double reach_mm(const HungPanel& panel, const Layout& layout) {
    return panel.centre_mm.z + highest_mm(*panel.layout) +
           panel.layout->height_mm / 2 * std::sin(glm::radians(layout.room.lean_deg));
}

}  // namespace rakelight
