// Points on the circle and the hemisphere from uniform numbers, the same to the bit on every machine: a
// polynomial and not the system's sine, which differs between processors.
#pragma once

#include <glm/glm.hpp>
#include <numbers>

#include "materials/maths/lanes.h"

namespace rakelight {

/// Cosine and sine of an angle; of one or, with Real = Floats, of eight.
template <class Real>
struct CirclePoint {
    Real x, y;
};

/// (cos, sin) of `turn` full turns, `turn` in [0, 1]. Error below 2e-7.
template <class Real>
inline CirclePoint<Real> point_on_circle(const Real& turn) {
    const Real quarters = turn * 4;
    const Real quadrant = floor(quarters + 0.5f);
    const Real x = (quarters - quadrant) * (std::numbers::pi_v<float> / 2);  // in [-pi/4, pi/4]
    const Real y = x * x;
    const Real s = x * (1 + y * (-1.f / 6 + y * (1.f / 120 + y * (-1.f / 5040 + y * (1.f / 362880)))));
    const Real c = 1 + y * (-0.5f + y * (1.f / 24 + y * (-1.f / 720 + y * (1.f / 40320))));
    const Real half = floor(quadrant * 0.5f);
    const auto odd = quadrant - 2 * half > 0.5f;
    const Real sign = half == 1 ? -1.0f : 1.0f;
    return {sign * (odd ? -s : c), sign * (odd ? c : s)};
}

inline glm::vec2 circle_point(float turn) {
    const CirclePoint<float> p = point_on_circle(turn);
    return {p.x, p.y};
}

/// A direction of the upper hemisphere with density cos/pi; `u` in [0, 1)^2.
inline glm::vec3 cosine_direction(const glm::vec2& u) {
    const float radius = std::sqrt(u.x);
    return glm::vec3(radius * circle_point(u.y), std::sqrt(std::max(1 - u.x, 1e-8f)));
}
inline Vec3s cosine_direction(const Floats& u, const Floats& v) {
    const Floats radius = sqrt(u);
    const CirclePoint<Floats> p = point_on_circle(v);
    return {radius * p.x, radius * p.y, sqrt(max(1 - u, broadcast(1e-8f)))};
}

}  // namespace rakelight
