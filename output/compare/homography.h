// Plane to plane by perspective: a homography from four points to four (Hartley and Zisserman, Multiple View
// Geometry, 2nd edition, ch. 4).
#pragma once

#include <array>
#include <glm/glm.hpp>

namespace rakelight {

/// Four corners in pixels from the top left of the picture: top left, top right, bottom right, bottom left.
using Corners = std::array<glm::dvec2, 4>;

/// The point that `at` is seen at. `h` times (x, y, 1), divided by its third part.
inline glm::dvec2 projected(const glm::dmat3& h, const glm::dvec2& at) {
    const glm::dvec3 p = h * glm::dvec3(at, 1);
    return glm::dvec2(p) / p.z;
}

/// The homography that takes each corner of `from` to that of `to`. Both are proper quadrilaterals.
glm::dmat3 homography(const Corners& from, const Corners& to);

/// Whether corners go round a convex quadrilateral clockwise as a picture shows it (y down), as they should.
bool proper(const Corners& corners);

}  // namespace rakelight
