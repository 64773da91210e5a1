// How a plane is seen by a camera without distortion: a homography by least squares from points known on the
// plane and in the picture (Hartley and Zisserman, Multiple View Geometry, 2nd edition, 4.1 and 4.4, the
// normalised direct linear transformation), refined by Gauss-Newton on the distances in the picture.
#pragma once

#include <glm/glm.hpp>
#include <span>

namespace rakelight {

struct SeenPoint {
    glm::dvec2 at_mm{};  ///< on the plane
    glm::dvec2 at_px{};  ///< in the picture
};

/// The point that `at` is seen at.
inline glm::dvec2 through(const glm::dmat3& h, const glm::dvec2& at) {
    const glm::dvec3 p = h * glm::dvec3(at, 1);
    return glm::dvec2(p) / p.z;
}

struct PlaneFit {
    glm::dmat3 to_px{1};   ///< from the plane to the picture
    double misfit_mm = 0;  ///< on the plane, root mean square over the points
};

/// Of four points or more, no three of the least four in a line.
PlaneFit fit_plane(std::span<const SeenPoint> points);

}  // namespace rakelight
