// The thin lens: what lies off the plane it is focused on is blurred, as in a close photograph. A point at
// distance S2 shows on the film as a disc of diameter A f |S2 - S1| / (S2 (S1 - f)), the circle of confusion
// (textbook optics, from similar triangles and 1/f = 1/S1 + 1/film distance).
#pragma once

#include <cmath>

#include "materials/maths/circle.h"
#include "renderer/camera.h"
#include "renderer/sampler.h"

namespace rakelight {

struct Lens {
    double aperture_mm = 0;  ///< diameter A of the opening; 0 = a point, everything sharp
    double focus_mm = 1000;  ///< distance S1 along the line of sight of what is sharp, > 0
};

/// Pair of dimensions that chooses the place on the lens: beyond those of the longest path.
inline constexpr std::uint32_t kLensPair = 1024;

/// Eight rays from the lens.
struct LensRays {
    Vec3s from_mm;
    Vec3s direction;  ///< unit
};

/// Rays through picture place (x, y) from places on the lens chosen by `u`, evenly over its disc. They meet
/// in the plane that is in focus, which is parallel to the picture.
inline LensRays through_lens(const Lens& lens, const Camera& camera, const Floats& x, const Floats& y,
                             const PairOf<Floats>& u) {
    const glm::vec3 across = glm::normalize(camera.right), down = glm::normalize(camera.down);
    const float depth = std::abs(glm::dot(camera.corner, glm::cross(across, down)));
    const float reach = static_cast<float>(lens.focus_mm) / depth;
    const Floats radius = sqrt(u.x) * static_cast<float>(lens.aperture_mm / 2);
    const CirclePoint<Floats> turn = point_on_circle(u.y);
    const Floats a = radius * turn.x, b = radius * turn.y;
    const auto each = [&](int axis) {
        const Floats offset = a * across[axis] + b * down[axis];
        const Floats aim = camera.corner[axis] + x * camera.right[axis] + y * camera.down[axis];
        return PairOf<Floats>{offset + camera.eye_mm[axis], aim * reach - offset};
    };
    const PairOf<Floats> i = each(0), j = each(1), k = each(2);
    return {{i.x, j.x, k.x}, normalised({i.y, j.y, k.y})};
}

}  // namespace rakelight
