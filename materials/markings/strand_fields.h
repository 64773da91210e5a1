// The fields behind strands: a number for each place, whose highest values are the second colour. Sums of
// gradient noise bent by others (Perlin 1985, "An Image Synthesizer"), and walls between cells (Worley 1996)
// for cracks. Their shapes are common practice, no published source.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <glm/glm.hpp>

#include "materials/markings/markings.h"
#include "materials/maths/noise.h"

namespace rakelight {

namespace strand_detail {

/// Noise of standard deviation one.
inline float unit_noise(const glm::vec3& p, std::uint32_t seed) {
    return noise_value(p, seed) * (1 / kNoiseDeviation);
}

inline float streak(glm::vec3 p, std::uint32_t seed) {
    // Rollers draw the sheet out; the batch had swirled before.
    p.y += 0.55f * unit_noise(p * glm::vec3(0.7f, 0.3f, 0.3f), seed + 11) +
           0.1f * unit_noise(p * glm::vec3(1.9f, 0.8f, 0.8f), seed + 12);
    return 0.78f * unit_noise(p, seed) + 0.48f * unit_noise(p * glm::vec3(1.1f, 2.7f, 1), seed + 1) +
           0.40f * unit_noise(p * glm::vec3(1.4f, 7.1f, 1), seed + 2);
}

inline glm::vec3 curled(const glm::vec3& p, float by, std::uint32_t seed) {
    return p + by * glm::vec3(unit_noise(p, seed), unit_noise(p + 31.7f, seed + 1), 0);
}

inline float wisp(const glm::vec3& p, std::uint32_t seed) {
    const glm::vec3 q = curled(curled(p * 0.5f, 0.55f, seed + 21) * 2.f, 0.22f, seed + 24);
    const float sheet = std::abs(unit_noise(q, seed)), slow = unit_noise(p * 0.4f, seed + 3);
    return -1.3f * sheet + 0.55f * slow + 0.25f * unit_noise(q * 3.3f, seed + 4);
}

inline float vein(const glm::vec3& p, std::uint32_t seed) {
    const glm::vec3 q = curled(curled(p * 0.6f, 0.5f, seed + 31) * (1 / 0.6f), 0.16f, seed + 34);
    const auto line = [&](float scale, std::uint32_t layer) {
        return std::abs(unit_noise(q * scale, seed + layer));
    };
    const float broad = 0.35f + std::max(0.f, 0.5f + 0.6f * unit_noise(p * 0.5f, seed + 5));
    const float fine = line(2.2f, 2) / 0.3f + std::max(0.f, 1.2f * unit_noise(p * 0.7f, seed + 6));
    return -std::min(line(0.7f, 1) / broad, fine) + 0.05f * unit_noise(q * 9.f, seed + 7);
}

inline float crackle(const glm::vec3& p, std::uint32_t seed) {
    const glm::vec3 flat(p.x, p.y, 0.5f);
    const CellSample c = cell_noise(flat + 0.06f * unit_noise(flat * 2.f, seed + 41), seed);
    return c.nearest - c.second;
}

inline float cloud(const glm::vec3& p, std::uint32_t seed) {
    const glm::vec3 q =
        p + 0.5f * glm::vec3(unit_noise(p * 0.7f, seed + 51), unit_noise(p * 0.7f, seed + 52), 0);
    return 0.92f * unit_noise(q, seed) + 0.36f * unit_noise(q * 2.3f, seed + 1) +
           0.14f * unit_noise(q * 5.1f, seed + 2);
}

inline float wash(const glm::vec3& p, std::uint32_t seed) {
    return 0.7f * unit_noise(p, seed) + 0.6f * unit_noise(p * 2.9f, seed + 1) +
           0.39f * unit_noise(p * 0.22f, seed + 2);
}

}  // namespace strand_detail

/// The field of a form at a place, in units of half the way from one strand to the next, x along the sheet.
inline float strand_field(Strand form, const glm::vec3& p, std::uint32_t seed) {
    switch (form) {
        case Strand::streak:
            return strand_detail::streak(p, seed);
        case Strand::wisp:
            return strand_detail::wisp(p, seed);
        case Strand::vein:
            return strand_detail::vein(p, seed);
        case Strand::crackle:
            return strand_detail::crackle(0.5f * p, seed);
        case Strand::cloud:
            return strand_detail::cloud(p, seed);
        case Strand::wash:
            return strand_detail::wash(p, seed);
    }
    return 0;
}

/// Over how much of the field a form changes from the one colour to the other.
inline float strand_edge(Strand form) {
    switch (form) {
        case Strand::streak:
            return 1.5f;
        case Strand::wisp:
            return 0.9f;
        case Strand::vein:
            return 0.5f;
        case Strand::crackle:
            return 0.03f;
        case Strand::cloud:
            return 4;
        case Strand::wash:
            return 1.8f;
    }
    return 1;
}

}  // namespace rakelight
