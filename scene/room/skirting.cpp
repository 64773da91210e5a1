#include "scene/room/skirting.h"

#include <algorithm>

#include "scene/model/layout.h"
#include "scene/room/doors.h"
#include "scene/room/hung_panel.h"
#include "scene/room/joinery.h"

namespace rakelight {

std::vector<FaceArea> skirting_of(const Layout& layout, RoomFace wall, double high_mm) {
    const FacePlane face = face_plane(layout.room, wall);
    std::vector<FaceArea> gaps;
    for (const Door& door : layout.room.doors)
        if (door.wall == wall) gaps.push_back(door_area(door));
    for (const Window& window : layout.on.windows)
        if (window.wall == wall) gaps.push_back(window_area(window));
    if (wall == RoomFace::panel && layout.panel.width_mm > 0)
        for (const HungPanel& panel : hung_panels(layout)) {
            const glm::dvec2 half = outer_half_mm(panel.layout->panel, layout.panel.lean_deg);
            gaps.push_back({glm::dvec2(panel.centre_mm) - half, glm::dvec2(panel.centre_mm) + half});
        }
    std::erase_if(gaps, [&](const FaceArea& gap) { return gap.low_mm.y >= high_mm; });
    std::ranges::sort(gaps, {}, [](const FaceArea& gap) { return gap.low_mm.x; });
    std::vector<FaceArea> lengths;
    double from = face.low_mm.x;
    const auto lay = [&](double to) {
        if (to > from) lengths.push_back({{from, 0}, {to, high_mm}});
    };
    for (const FaceArea& gap : gaps) {
        lay(gap.low_mm.x);
        from = std::max(from, gap.high_mm.x);
    }
    lay(face.high_mm.x);
    return lengths;
}

std::vector<Mesh> skirting_meshes(const Layout& layout, double high_mm) {
    constexpr double kEased_mm = 5;
    std::vector<Mesh> meshes;
    if (!(high_mm > 0)) return meshes;
    for (const RoomFace wall : {RoomFace::left, RoomFace::right, RoomFace::opposite, RoomFace::panel}) {
        const FacePlane face = face_plane(layout.room, wall);
        for (const auto& [low, high] : skirting_of(layout, wall, high_mm)) {
            const glm::dvec3 a = face.point(low), b = face.point(high) + kSkirtingDeep_mm * face.inward;
            meshes.push_back(eased_box_mesh(glm::min(a, b), glm::max(a, b), kEased_mm));
        }
    }
    return meshes;
}

}  // namespace rakelight
