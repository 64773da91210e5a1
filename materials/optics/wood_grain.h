// The grain of timber: growth rings round a pith that wanders, fibres and pores along it, broad streaks.
// Solid, so that a face along the trunk shows lines and flames, and a face across it, end grain, arcs of
// rings. A procedural solid texture (Perlin 1985, "An Image Synthesizer"; Peachey 1985); shares and sizes are
// common practice, no published source.
#pragma once

#include <cmath>
#include <cstdint>
#include <glm/glm.hpp>

#include "materials/maths/basis.h"
#include "materials/maths/noise.h"

namespace rakelight {

/// Pale early wood turning to a dark line of late wood, once a ring: `t` 0..1 across it; mean 0, standard
/// deviation 1 over t. 1/4 and sqrt(1/7 - 1/16) are those of t^3.
inline float ring_tone(float t) {
    return (0.25f - t * t * t) / 0.28347f;
}

/// Unevenness of timber at a place, mean 0, standard deviation about 1; positive is paler. `along`: unit, the
/// way the trunk grew; `ring_mm`: width of a growth ring; `seed`: which board.
inline float wood_tone(const glm::vec3& at_mm, const glm::vec3& along, float ring_mm, std::uint32_t seed) {
    const Basis across(along);
    const float a = glm::dot(at_mm, along);
    const glm::vec2 q(glm::dot(at_mm, across.x), glm::dot(at_mm, across.y));
    // The pith lies 15 to 60 rings off, in a direction of the board's own, and wanders as the trunk did.
    const float turn = static_cast<float>(seed & 0xffffu) * (6.2831853f / 65536);
    const float off = ring_mm * (15 + 45 * static_cast<float>(seed >> 16 & 0xffu) / 255);
    const glm::vec2 pith = off * glm::vec2(std::cos(turn), std::sin(turn));
    const float wander = noise_value({a / 260, 0.5f, q.x / 120}, seed + 1) * 4 * ring_mm +
                         noise_value({a / 90, q.y / 25, q.x / 25}, seed + 2) * 0.9f * ring_mm;
    const float rings = (glm::length(q - pith) + wander) / ring_mm;
    const float fibre = noise_value({a / 45, q.x / 0.7f, q.y / 0.7f}, seed + 3) / kNoiseDeviation;
    const float streak = noise_value({a / 700, q.x / 22, q.y / 22}, seed + 4) / kNoiseDeviation;
    // Squares of the shares add up to one.
    return 0.62f * ring_tone(rings - std::floor(rings)) + 0.5f * fibre + 0.605f * streak;
}

}  // namespace rakelight
