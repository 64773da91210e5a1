// A pinhole camera: a point, a looked-at point and the width of what is seen there. The picture plane lies
// across the optical axis; where that is not the line of sight, the picture is shifted within it, as by the
// rising front of a view camera.
#pragma once

#include <glm/glm.hpp>

#include "materials/maths/lanes.h"
#include "scene/model/viewpoint.h"
#include "scene/model/views.h"

namespace rakelight {

struct Camera {
    glm::vec3 eye_mm{};
    glm::vec3 corner{};  ///< from the eye to the picture's upper left corner, at one focal length
    glm::vec3 right{};   ///< whole width
    glm::vec3 down{};    ///< whole height

    /// Unit direction through (x, y) in picture shares, [0, 1], from the upper left.
    glm::vec3 toward(float x, float y) const { return glm::normalize(corner + x * right + y * down); }
    /// The same through eight points.
    Vec3s toward(const Floats& x, const Floats& y) const {
        return normalised({corner.x + x * right.x + y * down.x, corner.y + x * right.y + y * down.y,
                           corner.z + x * right.z + y * down.z});
    }
};

/// `origin_mm`: room coordinates of the world's origin.
inline Camera make_camera(const Viewpoint& view, int width_px, int height_px, const glm::dvec3& origin_mm) {
    const glm::dvec3 sight = view.look_at_mm - view.eye_mm;
    const double distance = view_distance_mm(view);
    const glm::dvec3 forward = optical_axis(view);
    const glm::dvec3 up = std::abs(forward.y) < 0.999 ? glm::dvec3(0, 1, 0) : glm::dvec3(0, 0, -1);
    const glm::dvec3 right = glm::normalize(glm::cross(forward, up));
    const glm::dvec3 upward = glm::cross(right, forward);
    const double width = view.view_width_mm / distance;
    const double height = width * height_px / width_px;
    Camera c;
    c.eye_mm = view.eye_mm - origin_mm;
    c.corner = sight / distance - right * (width / 2) + upward * (height / 2);
    c.right = right * width;
    c.down = -upward * height;
    return c;
}

}  // namespace rakelight
