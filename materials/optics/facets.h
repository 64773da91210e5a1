// Sums over the facets of a rough interface that one direction sees, in double precision: for tables that are
// made once. Source: Heitz 2014, J. Comput. Graph. Tech. 3(2) (masking); Dupuy and Benyoub 2023 (visible
// normals).
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <glm/glm.hpp>
#include <numbers>

#include "materials/optics/ggx.h"

namespace rakelight {

inline constexpr int kFacetTurns = 32;    // directions round half the circle
inline constexpr int kFacetHeights = 64;  // along the cap

/// Share of light from direction `out` (unit, z > 0) that GGX facets send on, when one sends on
/// `share(towards, z_in)` of what it meets: `towards` is the cosine on the facet, `z_in` that of leaving.
/// Light that strikes a second facet is not counted. Error about 1e-4.
template <class Share>
double over_visible_facets(glm::dvec3 out, const Slopes& slopes, Share&& share) {
    struct Turn {
        double cosine, sine;
    };
    // Each height's ring is turned by the golden ratio against the one before, as in a rank-one lattice.
    static const auto turns = [] {
        std::array<std::array<Turn, 2 * kFacetTurns>, kFacetHeights> r;
        for (std::size_t k = 0; k < kFacetHeights; ++k) {
            const double golden = 0.6180339887498949 * static_cast<double>(k),
                         shift = golden - std::floor(golden);
            for (std::size_t t = 0; t < 2 * kFacetTurns; ++t) {
                const double phi = std::numbers::pi * (static_cast<double>(t) + shift) / kFacetTurns;
                r[k][t] = {std::cos(phi), std::sin(phi)};
            }
        }
        return r;
    }();
    // One half of the circle mirrors the other where facets lie the same every way.
    const std::size_t round = slopes.across == 1 ? kFacetTurns : 2 * kFacetTurns;
    if (out.z < 1e-6) out = glm::normalize(glm::dvec3(out.x, out.y, 1e-6));
    const double alpha = slopes.alpha, ax = alpha * slopes.along, ay = alpha * slopes.across;
    const glm::dvec3 o = glm::normalize(glm::dvec3(ax * out.x, ay * out.y, out.z));
    const auto lambda = [&](const glm::dvec3& v) {
        return 0.5 * (std::sqrt(1 + (ax * ax * v.x * v.x + ay * ay * v.y * v.y) / (v.z * v.z)) - 1);
    };
    const double shadow_out = 1 + lambda(out);
    double total = 0;
    for (std::size_t k = 0; k < kFacetHeights; ++k) {
        // The square in the height crowds points at the bottom of the cap, where the steepest facets are.
        const double left = 1 - (static_cast<double>(k) + 0.5) / kFacetHeights;
        const double z = left * left * (1 + o.z) - o.z, radius = std::sqrt(std::max(0.0, 1 - z * z));
        for (std::size_t t = 0; t < round; ++t) {
            const Turn& turn = turns[k][t];
            const glm::dvec3 h = glm::normalize(
                glm::dvec3(ax * (radius * turn.cosine + o.x), ay * (radius * turn.sine + o.y), z + o.z));
            const double toward = glm::dot(out, h);
            const glm::dvec3 in = 2 * toward * h - out;
            if (in.z > 0 && toward > 0)
                total += 2 * left * share(toward, in.z) * shadow_out / (shadow_out + lambda(in));
        }
    }
    return total / (static_cast<double>(round) * kFacetHeights);
}

}  // namespace rakelight
