// Sums over the facets of a rough face that one direction sees, in double precision: for tables that are made
// once. Source: Heitz 2014, J. Comput. Graph. Tech. 3(2) (masking); Dupuy and Benyoub 2023 (visible normals).
#pragma once

#include <algorithm>
#include <array>
#include <cmath>

namespace rakelight {

inline constexpr int kFacetTurns = 32;    // directions round half the circle; the other half mirrors it
inline constexpr int kFacetHeights = 64;  // along the cap

/// Share of light from cosine `z_out` that GGX facets of roughness `alpha` send on, when one sends on
/// `share(toward, z_in)` of what it meets: `toward` is the cosine on the facet, `z_in` that of leaving.
/// Light that strikes a second facet is not counted. Error about 1e-4.
template <class Share>
double over_visible_facets(double z_out, double alpha, Share&& share) {
    struct Turn {
        double cosine, sine;
    };
    // Each height's ring is turned by the golden ratio against the one before, as in a rank-one lattice.
    static const auto turns = [] {
        std::array<std::array<Turn, kFacetTurns>, kFacetHeights> r;
        for (std::size_t k = 0; k < kFacetHeights; ++k) {
            const double golden = 0.6180339887498949 * static_cast<double>(k),
                         shift = golden - std::floor(golden);
            for (std::size_t t = 0; t < kFacetTurns; ++t) {
                const double phi = 3.14159265358979323846 * (static_cast<double>(t) + shift) / kFacetTurns;
                r[k][t] = {std::cos(phi), std::sin(phi)};
            }
        }
        return r;
    }();
    z_out = std::max(z_out, 1e-6);
    const double x_out = std::sqrt(1 - z_out * z_out), a2 = alpha * alpha;
    const double stretch = std::hypot(alpha * x_out, z_out);
    const double ox = alpha * x_out / stretch, oz = z_out / stretch;
    const auto lambda = [&](double z) { return 0.5 * (std::sqrt(1 + a2 * (1 / (z * z) - 1)) - 1); };
    const double shadow_out = 1 + lambda(z_out);
    double total = 0;
    for (std::size_t k = 0; k < kFacetHeights; ++k) {
        // The square in the height crowds points at the bottom of the cap, where the steepest facets are.
        const double left = 1 - (static_cast<double>(k) + 0.5) / kFacetHeights;
        const double z = left * left * (1 + oz) - oz, radius = std::sqrt(std::max(0.0, 1 - z * z));
        for (const Turn& turn : turns[k]) {
            double hx = alpha * (radius * turn.cosine + ox), hy = alpha * radius * turn.sine, hz = z + oz;
            const double length = std::sqrt(hx * hx + hy * hy + hz * hz);
            hx /= length, hz /= length;
            const double toward = x_out * hx + z_out * hz;
            const double z_in = 2 * toward * hz - z_out;
            if (z_in > 0 && toward > 0)
                total += 2 * left * share(toward, z_in) * shadow_out / (shadow_out + lambda(z_in));
        }
    }
    return total / (kFacetTurns * kFacetHeights);
}

}  // namespace rakelight
