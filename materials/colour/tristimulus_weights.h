// Tristimulus weights (ASTM E308 and E2022): what turns a light path's sixteen bands into XYZ where it meets
// a lamp, with the lamp's spectrum and the observer summed at 5 nm. A reflectance known at the band nodes is
// interpolated by local Lagrange polynomials (cubic; quadratic in the first and last interval; constant
// beyond 400 and 700 nm), and the interpolation is carried into the weights. A spiky lamp is therefore summed
// at its own resolution, and only the smoothness of the reflectance limits the result.
#pragma once

#include <array>
#include <cstddef>

#include "materials/colour/spectrum.h"

namespace rakelight {

/// Weights such that X, Y, Z = sum over bands of reflectance x weight. The sum of `y` is 1: a perfect
/// reflector gets the lamp's own luminance, and X and Z of its white. Single weights may be slightly
/// negative.
struct TristimulusWeights {
    SampledSpectrum x;
    SampledSpectrum y;
    SampledSpectrum z;
    friend constexpr bool operator==(const TristimulusWeights&, const TristimulusWeights&) = default;
};

/// The weights of a lamp of this relative spectral power under the CIE 1931 observer.
/// \throws std::invalid_argument if a power is negative or not finite, or if the lamp gives no light.
TristimulusWeights tristimulus_weights(const Spectrum& lamp);

namespace detail {

/// Sum of products, halved lane onto lane: a fixed order.
inline float dot(const SampledSpectrum& a, const SampledSpectrum& b) {
    const Floats p = a.eight(0) * b.eight(0) + a.eight(8) * b.eight(8);
    const __m128 q = _mm_add_ps(_mm256_castps256_ps128(p), _mm256_extractf128_ps(p, 1));
    const __m128 r = _mm_add_ps(q, _mm_movehl_ps(q, q));
    return r[0] + r[1];
}

}  // namespace detail

/// X, Y, Z of light that left the lamp and kept `reflectance` of itself, relative to a luminance of 1. Never
/// throws.
inline std::array<float, 3> integrate(const TristimulusWeights& weights, const SampledSpectrum& reflectance) {
    return {detail::dot(weights.x, reflectance), detail::dot(weights.y, reflectance),
            detail::dot(weights.z, reflectance)};
}

}  // namespace rakelight
