#include "scene/room/wall_finish.h"

#include <algorithm>
#include <cmath>

#include "scene/model/layout.h"
#include "scene/room/doors.h"
#include "scene/room/joinery.h"

namespace rakelight {

namespace {

// What of `part` lies outside of `hole`: beside it, then below and above it.
void cut_out(const FaceArea& part, const FaceArea& hole, std::vector<FaceArea>& left) {
    if (!part.meets(hole)) {
        left.push_back(part);
        return;
    }
    const glm::dvec2 low = glm::max(part.low_mm, hole.low_mm), high = glm::min(part.high_mm, hole.high_mm);
    const auto keep = [&](const glm::dvec2& from, const glm::dvec2& to) {
        constexpr double kCrumb_mm = 3;
        if (to.x - from.x > kCrumb_mm && to.y - from.y > kCrumb_mm) left.push_back({from, to});
    };
    keep(part.low_mm, {low.x, part.high_mm.y});
    keep({high.x, part.low_mm.y}, part.high_mm);
    keep({low.x, part.low_mm.y}, {high.x, low.y});
    keep({low.x, high.y}, {high.x, part.high_mm.y});
}

// Rows of parts with joints between them, each row begun `shift` of a part further than the one below.
std::vector<FaceArea> coursed(const FacePlane& face, const glm::dvec2& size, double joint, double shift) {
    std::vector<FaceArea> parts;
    const glm::dvec2 step = size + joint;
    int row = 0;
    for (double y = face.low_mm.y; y < face.high_mm.y; y += step.y, ++row) {
        const double from = face.low_mm.x - std::fmod(row * shift, 1.0) * step.x;
        for (double x = from; x < face.high_mm.x; x += step.x) {
            const FaceArea part{glm::max(glm::dvec2(x, y), face.low_mm),
                                glm::min(glm::dvec2(x, y) + size, face.high_mm)};
            if (part.high_mm.x - part.low_mm.x > 5 && part.high_mm.y - part.low_mm.y > 5)
                parts.push_back(part);
        }
    }
    return parts;
}

// Stiles from floor to ceiling, three rails between them.
std::vector<FaceArea> framed(const FacePlane& face) {
    constexpr double kBoard_mm = 95, kPanel_mm = 620, kDado_mm = 900;
    const double width = face.high_mm.x - face.low_mm.x, height = face.high_mm.y - face.low_mm.y;
    const int panels =
        std::max(1, static_cast<int>(std::lround((width - kBoard_mm) / (kPanel_mm + kBoard_mm))));
    const double step = (width - kBoard_mm) / panels;
    std::vector<FaceArea> parts;
    for (int i = 0; i <= panels; ++i) {
        const double x = face.low_mm.x + i * step;
        parts.push_back({{x, face.low_mm.y}, {x + kBoard_mm, face.high_mm.y}});
        if (i == panels) break;
        for (const double y : {0.0, std::min(kDado_mm, 0.35 * height), height - kBoard_mm})
            parts.push_back({{x + kBoard_mm, y}, {x + step, y + (y > 0 ? kBoard_mm : 2 * kBoard_mm)}});
    }
    return parts;
}

}  // namespace

std::vector<FaceArea> wall_parts(const Layout& layout, RoomFace wall) {
    const FacePlane face = face_plane(layout.room, wall);
    std::vector<FaceArea> parts;
    switch (layout.room.wall_finish) {
        case WallFinish::smooth:
        case WallFinish::stippled:
            return {};
        case WallFinish::brick:
            parts = coursed(face, {kBrickLong_mm, kBrickHigh_mm}, kBrickJoint_mm, 0.5);
            break;
        case WallFinish::concrete:
            parts = coursed(face, {2400, 1240}, 6, 0);
            break;
        case WallFinish::panelling:
            parts = framed(face);
            break;
    }
    std::vector<FaceArea> holes;
    for (const Door& door : layout.room.doors)
        if (door.wall == wall) holes.push_back(door_area(door));
    for (const Window& window : layout.on.windows)
        if (window.wall == wall) holes.push_back(window_area(window));
    for (const FaceArea& hole : holes) {
        std::vector<FaceArea> left;
        for (const FaceArea& part : parts) cut_out(part, hole, left);
        parts = std::move(left);
    }
    return parts;
}

Markings wall_markings(WallFinish finish) {
    Markings m;
    if (finish == WallFinish::stippled) m.face = {Pattern::stippled, 3.5f, 5};
    if (finish == WallFinish::concrete) {
        m.face = {Pattern::blowholes, 7, 4};
        m.mottling = {0.05f, 260};
    }
    return m;
}

double wall_relief_mm(WallFinish finish) {
    switch (finish) {
        case WallFinish::smooth:
        case WallFinish::stippled:
            break;
        case WallFinish::brick:
            return 5;
        case WallFinish::concrete:
            return 4;
        case WallFinish::panelling:
            return 9;
    }
    return 0;
}

Mesh wall_part_mesh(const Room& room, RoomFace wall, const FaceArea& part) {
    const FacePlane face = face_plane(room, wall);
    const double relief = wall_relief_mm(room.wall_finish);
    const glm::dvec3 a = face.point(part.low_mm), b = face.point(part.high_mm) + relief * face.inward;
    return eased_box_mesh(glm::min(a, b), glm::max(a, b), 0.3 * relief);
}

}  // namespace rakelight
