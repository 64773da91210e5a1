#include "scene/room/furnishing_check.h"

#include <fmt/format.h>

#include <algorithm>

#include "scene/model/layout.h"
#include "scene/room/hung_panel.h"
#include "scene/room/room_check.h"
#include "scene/room/room_face.h"

namespace rakelight {
namespace {

FaceArea wall_area(const HungPanel& panel, double lean_deg) {
    const glm::dvec2 half = outer_half_mm(panel.layout->panel, lean_deg);
    return {glm::dvec2(panel.centre_mm) - half, glm::dvec2(panel.centre_mm) + half};
}

std::string span(const glm::dvec2& low, const glm::dvec2& high) {
    return fmt::format("[{:.6g}, {:.6g}] to [{:.6g}, {:.6g}] mm", low.x, low.y, high.x, high.y);
}

}  // namespace

std::string why_no_window(const Window& window, const Layout& layout, std::span<const Window> before) {
    const FacePlane face = face_plane(layout.room, window.wall);
    const FaceArea area = window_area(window);
    if (glm::any(glm::lessThan(area.low_mm, face.low_mm)) ||
        glm::any(glm::greaterThan(area.high_mm, face.high_mm)))
        return fmt::format("found a window from {}, outside its wall, expected it within {}",
                           span(area.low_mm, area.high_mm), span(face.low_mm, face.high_mm));
    for (const Window& other : before)
        if (other.wall == window.wall && window_area(other).meets(area))
            return fmt::format("found a window over {}, expected windows side by side", other.name);
    if (window.wall == RoomFace::panel && layout.panel.width_mm > 0)
        for (const HungPanel& panel : hung_panels(layout))
            if (wall_area(panel, layout.panel.lean_deg).meets(area))
                return "found a window behind the panel, expected it beside the panel";
    return "";
}

Corners corners_of(const Furniture& box) {
    const glm::dvec3 half(box.size_mm.x / 2, 0, box.size_mm.z / 2);
    return {box.at_mm - half, box.at_mm + half + glm::dvec3(0, box.size_mm.y, 0)};
}

std::string why_no_furniture(const Furniture& box, const Layout& layout) {
    const Room& room = layout.room;
    const auto [low, high] = corners_of(box);
    const glm::dvec3 room_low(-room.width_mm / 2, 0, 0),
        room_high(room.width_mm / 2, room.height_mm, room.depth_mm);
    if (glm::any(glm::lessThan(low, room_low)) || glm::any(glm::greaterThan(high, room_high)))
        return fmt::format(
            "found {} from [{:.6g}, {:.6g}, {:.6g}] to [{:.6g}, {:.6g}, {:.6g}] mm, outside the room, "
            "expected "
            "it within [{:.6g}, 0, 0] to [{:.6g}, {:.6g}, {:.6g}] mm",
            box.name, low.x, low.y, low.z, high.x, high.y, high.z, room_low.x, room_high.x, room_high.y,
            room_high.z);
    if (layout.panel.width_mm <= 0) return "";
    for (const HungPanel& panel : hung_panels(layout)) {
        const FaceArea area = wall_area(panel, layout.panel.lean_deg);
        if (area.meets({glm::dvec2(low), glm::dvec2(high)}) && low.z < reach_mm(panel))
            return fmt::format(
                "found {} in the panel, which stands {:.6g} mm into the room, expected a free place",
                box.name, reach_mm(panel));
    }
    return "";
}

}  // namespace rakelight
