// The walls and the ceiling of the box room as planes with coordinates of their own, in which windows are
// said.
#pragma once

#include <glm/glm.hpp>

#include "scene/model/room.h"
#include "scene/model/window.h"

namespace rakelight {

/// A point of the face is origin + a * along + b * up, all in room coordinates; a and b within their limits.
struct FacePlane {
    glm::dvec3 origin_mm{};
    glm::dvec3 along{1, 0, 0};
    glm::dvec3 up{0, 1, 0};
    glm::dvec3 inward{0, 0, 1};  ///< unit, into the room
    glm::dvec2 low_mm{};
    glm::dvec2 high_mm{};

    glm::dvec3 point(const glm::dvec2& at) const { return origin_mm + at.x * along + at.y * up; }
};

FacePlane face_plane(const Room& room, RoomFace face);

/// A rectangle of a face, in its coordinates.
struct FaceArea {
    glm::dvec2 low_mm{};
    glm::dvec2 high_mm{};
    bool meets(const FaceArea& other) const {
        return glm::all(glm::lessThan(low_mm, other.high_mm)) &&
               glm::all(glm::lessThan(other.low_mm, high_mm));
    }
};

/// What a window takes of its wall or of the ceiling.
FaceArea window_area(const Window& window);

}  // namespace rakelight
