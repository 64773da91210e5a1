// A spectrum sampled in sixteen bands, 400 to 700 nm every 20 nm: what a light path carries. A band value is
// the value of the spectrum at the band's wavelength (a node, not an average); colorimetric weights
// interpolate between nodes (see tristimulus_weights.h), after the method of ASTM E308.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>

#include "materials/maths/lanes.h"

namespace rakelight {

inline constexpr int kBandCount = 16;
inline constexpr int kFirstBand_nm = 400;
inline constexpr int kBandStep_nm = 20;

/// Wavelength of a band in nanometres; `band` in [0, kBandCount).
constexpr int band_wavelength_nm(int band) {
    return kFirstBand_nm + kBandStep_nm * band;
}

/// One value per band. Unit and range are those of the quantity it holds. 64-byte aligned: two AVX2
/// registers.
struct alignas(64) SampledSpectrum {
    std::array<float, kBandCount> v{};

    constexpr SampledSpectrum() = default;
    /// The same value in every band.
    explicit constexpr SampledSpectrum(float value) { v.fill(value); }

    constexpr float& operator[](int band) { return v[static_cast<size_t>(band)]; }
    constexpr float operator[](int band) const { return v[static_cast<size_t>(band)]; }
    /// Eight bands as a SIMD vector, from `first_band` on: 0 or 8.
    Floats eight(std::size_t first_band) const { return _mm256_load_ps(v.data() + first_band); }
    friend constexpr bool operator==(const SampledSpectrum&, const SampledSpectrum&) = default;
};

/// Eight bands and eight more, as SIMD vectors: `f(first_band)` for 0 and 8.
template <class F>
inline SampledSpectrum by_eights(F&& f) {
    SampledSpectrum r;
    for (std::size_t first_band = 0; first_band < kBandCount; first_band += kLanes)
        _mm256_store_ps(r.v.data() + first_band, f(first_band));
    return r;
}

#define RAKELIGHT_SPECTRUM_OPERATOR(op)                                                      \
    inline SampledSpectrum operator op(const SampledSpectrum& a, const SampledSpectrum& b) { \
        return by_eights([&](std::size_t i) { return a.eight(i) op b.eight(i); });           \
    }                                                                                        \
    inline SampledSpectrum operator op(const SampledSpectrum& a, float b) {                  \
        return by_eights([&](std::size_t i) { return a.eight(i) op b; });                    \
    }                                                                                        \
    inline SampledSpectrum operator op(float a, const SampledSpectrum& b) {                  \
        return by_eights([&](std::size_t i) { return a op b.eight(i); });                    \
    }                                                                                        \
    inline SampledSpectrum& operator op##=(SampledSpectrum& a, const SampledSpectrum& b) {   \
        return a = a op b;                                                                   \
    }                                                                                        \
    inline SampledSpectrum& operator op##=(SampledSpectrum& a, float b) {                    \
        return a = a op b;                                                                   \
    }
RAKELIGHT_SPECTRUM_OPERATOR(+)
RAKELIGHT_SPECTRUM_OPERATOR(-)
RAKELIGHT_SPECTRUM_OPERATOR(*)
RAKELIGHT_SPECTRUM_OPERATOR(/)
#undef RAKELIGHT_SPECTRUM_OPERATOR

/// `f(value)` for each band.
template <class F>
constexpr SampledSpectrum map(const SampledSpectrum& a, F&& f) {
    SampledSpectrum r;
    for (int i = 0; i < kBandCount; ++i) r[i] = f(a[i]);
    return r;
}

inline SampledSpectrum lerp(const SampledSpectrum& a, const SampledSpectrum& b, float t) {
    return by_eights([&](std::size_t i) { return a.eight(i) + t * (b.eight(i) - a.eight(i)); });
}

constexpr float sum(const SampledSpectrum& a) {
    float r = 0;
    for (int i = 0; i < kBandCount; ++i) r += a[i];
    return r;
}

constexpr float mean(const SampledSpectrum& a) {
    return sum(a) / kBandCount;
}

inline float max_value(const SampledSpectrum& a) {
    const Floats eight = max(a.eight(8), a.eight(0));
    const __m128 four = _mm_max_ps(_mm256_extractf128_ps(eight, 1), _mm256_castps256_ps128(eight));
    const __m128 two = _mm_max_ps(_mm_movehl_ps(four, four), four);
    return std::max(two[0], two[1]);
}
constexpr float min_value(const SampledSpectrum& a) {
    return *std::min_element(a.v.begin(), a.v.end());
}

inline bool all_finite(const SampledSpectrum& a) {
    return std::all_of(a.v.begin(), a.v.end(), [](float x) { return std::isfinite(x); });
}

}  // namespace rakelight
