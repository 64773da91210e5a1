#include "scene/room/room_face.h"

namespace rakelight {

FacePlane face_plane(const Room& room, RoomFace face) {
    const double half = room.width_mm / 2;
    const glm::dvec3 x(1, 0, 0), y(0, 1, 0), z(0, 0, 1);
    const glm::dvec2 deep(room.depth_mm, room.height_mm), wide(half, room.height_mm);
    switch (face) {
        case RoomFace::left:
            return {-half * x, z, y, x, {0, 0}, deep};
        case RoomFace::right:
            return {half * x, z, y, -x, {0, 0}, deep};
        case RoomFace::opposite:
            return {room.depth_mm * z, x, y, -z, {-half, 0}, wide};
        case RoomFace::panel:
            return {{}, x, y, z, {-half, 0}, wide};
        case RoomFace::ceiling:
            return {room.height_mm * y, x, z, -y, {-half, 0}, {half, room.depth_mm}};
    }
    return {};
}

FaceArea window_area(const Window& window) {
    const glm::dvec2 size = window.size_mm;
    const double below = window.wall == RoomFace::ceiling ? size.y / 2 : 0;
    const glm::dvec2 low = window.at_mm - glm::dvec2(size.x / 2, below);
    return {low, low + size};
}

}  // namespace rakelight
