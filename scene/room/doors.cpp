#include "scene/room/doors.h"

#include <fmt/format.h>

#include "scene/geometry/loft.h"
#include "scene/model/layout.h"
#include "scene/room/hung_panel.h"
#include "scene/room/joinery.h"

namespace rakelight {

namespace {

constexpr double kArchitrave_mm = 70, kArchitraveDeep_mm = 22, kLeafGap_mm = 3, kLeafDeep_mm = 14;
constexpr double kHandleHigh_mm = 1020, kHandleIn_mm = 60;

// A board between two points of the wall, so far off it.
Mesh board(const FacePlane& face, const glm::dvec2& low, const glm::dvec2& high, double from_mm, double to_mm,
           double ease_mm) {
    const glm::dvec3 a = face.point(low) + from_mm * face.inward, b = face.point(high) + to_mm * face.inward;
    return eased_box_mesh(glm::min(a, b), glm::max(a, b), ease_mm);
}

// Stiles and rails before a thinner sheet: two panels above, two below the lock rail.
Mesh leaf_mesh(const FacePlane& face, const glm::dvec2& low, const glm::dvec2& high) {
    constexpr double kSheet_mm = 5, kEase_mm = 2.5;
    const glm::dvec2 size = high - low;
    const double stile = 0.13 * size.x, mullion = 0.11 * size.x;
    Mesh mesh = board(face, low, high, 0, kSheet_mm, 0.5);
    const auto add = [&](const glm::dvec2& a, const glm::dvec2& b) {
        append(mesh, board(face, low + a, low + b, 0, kLeafDeep_mm, kEase_mm));
    };
    const double rails[][2] = {{0, 0.10}, {0.44, 0.52}, {0.945, 1}};
    for (const double x : {0.0, size.x - stile}) add({x, 0}, {x + stile, size.y});
    for (const auto& [from, to] : rails) add({stile, from * size.y}, {size.x - stile, to * size.y});
    for (int i = 0; i < 2; ++i)
        add({(size.x - mullion) / 2, rails[i][1] * size.y},
            {(size.x + mullion) / 2, rails[i + 1][0] * size.y});
    return mesh;
}

Mesh handle_mesh(const FacePlane& face, const glm::dvec2& at) {
    constexpr double kOut_mm = 52;
    Mesh mesh =
        board(face, at - glm::dvec2(24, 24), at + glm::dvec2(24, 24), kLeafDeep_mm, kLeafDeep_mm + 8, 3);
    append(mesh, board(face, at - glm::dvec2(9, 9), at + glm::dvec2(9, 9), kLeafDeep_mm,
                       kLeafDeep_mm + kOut_mm, 3));
    append(mesh, board(face, at - glm::dvec2(9, 9), at + glm::dvec2(118, 9), kLeafDeep_mm + kOut_mm - 14,
                       kLeafDeep_mm + kOut_mm, 5));
    return mesh;
}

std::string span(const glm::dvec2& low, const glm::dvec2& high) {
    return fmt::format("[{:.6g}, {:.6g}] to [{:.6g}, {:.6g}] mm", low.x, low.y, high.x, high.y);
}

}  // namespace

FaceArea door_area(const Door& door) {
    const double half = door.size_mm.x / 2 + kLeafGap_mm + kArchitrave_mm;
    return {{door.at_mm - half, 0}, {door.at_mm + half, door.size_mm.y + kLeafGap_mm + kArchitrave_mm}};
}

DoorParts door_parts(const Room& room, const Door& door) {
    const FacePlane face = face_plane(room, door.wall);
    const auto [outer_low, outer_high] = door_area(door);
    const glm::dvec2 low(door.at_mm - door.size_mm.x / 2, 6),
        high(door.at_mm + door.size_mm.x / 2, door.size_mm.y);
    DoorParts parts;
    parts.leaf = leaf_mesh(face, low, high);
    const auto architrave = [&](const glm::dvec2& a, const glm::dvec2& b) {
        append(parts.frame, board(face, a, b, 0, kArchitraveDeep_mm, 4));
    };
    architrave(outer_low, {outer_low.x + kArchitrave_mm, outer_high.y - kArchitrave_mm});
    architrave({outer_high.x - kArchitrave_mm, 0}, {outer_high.x, outer_high.y - kArchitrave_mm});
    architrave({outer_low.x, outer_high.y - kArchitrave_mm}, outer_high);
    parts.handle = handle_mesh(face, {low.x + kHandleIn_mm, std::min(kHandleHigh_mm, high.y / 2)});
    return parts;
}

std::string why_no_door(const Door& door, const Layout& layout, std::span<const Door> before) {
    if (door.wall == RoomFace::ceiling) return "found a door in the ceiling, expected one in a wall";
    const FacePlane face = face_plane(layout.room, door.wall);
    const FaceArea area = door_area(door);
    if (glm::any(glm::lessThan(area.low_mm, face.low_mm)) ||
        glm::any(glm::greaterThan(area.high_mm, face.high_mm)))
        return fmt::format("found a door from {}, outside its wall, expected it within {}",
                           span(area.low_mm, area.high_mm), span(face.low_mm, face.high_mm));
    for (const Door& other : before)
        if (other.wall == door.wall && door_area(other).meets(area))
            return fmt::format("found a door over {}, expected doors side by side", other.name);
    for (const Window& window : layout.on.windows)
        if (window.wall == door.wall && window_area(window).meets(area))
            return fmt::format("found a door over {}, expected it beside the window", window.name);
    if (door.wall == RoomFace::panel && layout.panel.width_mm > 0)
        for (const HungPanel& panel : hung_panels(layout)) {
            const glm::dvec2 half = outer_half_mm(panel.layout->panel, layout.panel.lean_deg);
            if (FaceArea{glm::dvec2(panel.centre_mm) - half, glm::dvec2(panel.centre_mm) + half}.meets(area))
                return "found a door behind the panel, expected it beside the panel";
        }
    return "";
}

}  // namespace rakelight
