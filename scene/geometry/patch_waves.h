// Unevenness shared by neighbours: a random surface of known statistics, as a sum of waves with random
// directions and phases. Its values at random places have mean 0 and variance 1; those of two places r apart
// correlate as exp(-r^2 / (2 l^2)) over all seeds, because the wave vectors are drawn from that function's
// spectrum (Shinozuka and Deodatis 1991, "Simulation of Stochastic Processes by Spectral Representation").
#pragma once

#include <array>
#include <cmath>

#include "materials/maths/hash.h"

#include <glm/glm.hpp>
#include <numbers>

namespace rakelight {

/// Two independent numbers of the normal distribution (Box and Muller 1958).
inline glm::dvec2 normal_pair(Rng& rng) {
    const double reach = std::sqrt(-2 * std::log(1 - rng.unit()));
    const double turn = 2 * std::numbers::pi * rng.unit();
    return reach * glm::dvec2(std::cos(turn), std::sin(turn));
}

class PatchWaves {
  public:
    /// `length_mm`: l above, > 0.
    PatchWaves(std::uint64_t seed, double length_mm) {
        Rng rng(seed);
        for (auto& w : waves_) {
            const glm::dvec2 k = normal_pair(rng) / length_mm;
            w = {k, 2 * std::numbers::pi * rng.unit()};
        }
    }
    /// The value at a place.
    double at(const glm::dvec2& p_mm) const {
        double sum = 0;
        for (const auto& w : waves_) sum += std::cos(glm::dot(glm::dvec2(w), p_mm) + w.z);
        return sum * std::sqrt(2.0 / static_cast<double>(waves_.size()));
    }

  private:
    std::array<glm::dvec3, 24> waves_;  // wave vector, phase
};

}  // namespace rakelight
