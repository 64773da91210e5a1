#include "output/compare/homography.h"

namespace rakelight {
namespace {

// From the unit square to four points, in closed form (Heckbert 1989, Fundamentals of texture
// mapping, 2.2.3).
glm::dmat3 from_square(const Corners& c) {
    const glm::dvec2 d1 = c[1] - c[2], d2 = c[3] - c[2], s = c[0] - c[1] + c[2] - c[3];
    const double det = d1.x * d2.y - d2.x * d1.y;
    const double g = (s.x * d2.y - d2.x * s.y) / det, h = (d1.x * s.y - s.x * d1.y) / det;
    const glm::dvec2 u = c[1] - c[0] + g * c[1], v = c[3] - c[0] + h * c[3];
    return {glm::dvec3(u, g), glm::dvec3(v, h), glm::dvec3(c[0], 1)};
}

}  // namespace

glm::dmat3 homography(const Corners& from, const Corners& to) {
    const glm::dmat3 h = from_square(to) * glm::inverse(from_square(from));
    return h / h[2][2];
}

bool proper(const Corners& corners) {
    for (std::size_t i = 0; i < 4; ++i) {
        const glm::dvec2 a = corners[(i + 1) % 4] - corners[i],
                         b = corners[(i + 2) % 4] - corners[(i + 1) % 4];
        if (!(a.x * b.y - a.y * b.x > 1e-6)) return false;
    }
    return true;
}

}  // namespace rakelight
