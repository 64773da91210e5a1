// Points on the circle and the hemisphere from uniform numbers, the same to the bit on every machine: a
// polynomial and not the system's sine, which differs between processors.
#pragma once

#include <algorithm>
#include <cmath>
#include <glm/glm.hpp>

namespace rakelight {

/// (cos, sin) of `turn` full turns, `turn` in [0, 1]. Error below 2e-7.
inline glm::vec2 circle_point(float turn) {
    const float quarters = turn * 4;
    const int quadrant = static_cast<int>(quarters + 0.5f);
    const float x = (quarters - static_cast<float>(quadrant)) * 1.57079632679f;  // in [-pi/4, pi/4]
    const float y = x * x;
    const float s = x * (1 + y * (-1.f / 6 + y * (1.f / 120 + y * (-1.f / 5040 + y * (1.f / 362880)))));
    const float c = 1 + y * (-0.5f + y * (1.f / 24 + y * (-1.f / 720 + y * (1.f / 40320))));
    const glm::vec2 p = (quadrant & 1) ? glm::vec2(-s, c) : glm::vec2(c, s);
    return (quadrant & 2) ? -p : p;
}

/// A direction of the upper hemisphere with density cos/pi; `u` in [0, 1)^2.
inline glm::vec3 cosine_direction(const glm::vec2& u) {
    const float radius = std::sqrt(u.x);
    return glm::vec3(radius * circle_point(u.y), std::sqrt(std::max(1 - u.x, 1e-8f)));
}

}  // namespace rakelight
