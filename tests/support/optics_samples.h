// Directions, points and weights by which tests go over what a surface does.
#pragma once

#include <cmath>
#include <glm/glm.hpp>

#include "materials/colour/sampled_spectrum.h"

namespace rakelight {

/// A unit vector by its cosine to the normal and its turn, rad.
inline glm::vec3 direction(double z, double phi) {
    const double r = std::sqrt(1 - z * z);
    return glm::vec3(r * std::cos(phi), r * std::sin(phi), z);
}

/// Points 0, 1, .. of the unit cube, spread evenly: the rank-one lattice of Roberts' R3 sequence.
inline glm::vec3 spread_point(int i) {
    const auto part = [&](double step) {
        const double x = 0.5 + i * step;
        return float(x - std::floor(x)) * 0.9999999f;
    };
    return {part(0.8191725133961645), part(0.6710436067037893), part(0.5497004779019703)};
}

/// Mean by V(lambda) of CIE 1924 every 20 nm from 400.
inline double luminous(const SampledSpectrum& b) {
    constexpr double v[] = {.0004, .0040, .023, .060, .139, .323, .710, .954,
                            .995,  .870,  .631, .381, .175, .061, .017, .0041};
    double total = 0, weight = 0;
    for (int i = 0; i < kBandCount; ++i) total += v[i] * b[i], weight += v[i];
    return total / weight;
}

}  // namespace rakelight
