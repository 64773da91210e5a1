// A spectrum sampled in sixteen bands, 400 to 700 nm every 20 nm: what a light path carries. A band value is
// the value of the spectrum at the band's wavelength (a node, not an average); colorimetric weights
// interpolate between nodes (see tristimulus_weights.h), after the method of ASTM E308.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>

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
    friend constexpr bool operator==(const SampledSpectrum&, const SampledSpectrum&) = default;
};

#define RAKELIGHT_SPECTRUM_OPERATOR(op)                                                       \
    constexpr SampledSpectrum& operator op##=(SampledSpectrum& a, const SampledSpectrum& b) { \
        for (int i = 0; i < kBandCount; ++i) a[i] op## = b[i];                                \
        return a;                                                                             \
    }                                                                                         \
    constexpr SampledSpectrum& operator op##=(SampledSpectrum& a, float b) {                  \
        for (int i = 0; i < kBandCount; ++i) a[i] op## = b;                                   \
        return a;                                                                             \
    }                                                                                         \
    constexpr SampledSpectrum operator op(SampledSpectrum a, const SampledSpectrum& b) {      \
        return a op## = b;                                                                    \
    }                                                                                         \
    constexpr SampledSpectrum operator op(SampledSpectrum a, float b) {                       \
        return a op## = b;                                                                    \
    }                                                                                         \
    constexpr SampledSpectrum operator op(float a, const SampledSpectrum& b) {                \
        return SampledSpectrum(a) op b;                                                       \
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

constexpr SampledSpectrum lerp(const SampledSpectrum& a, const SampledSpectrum& b, float t) {
    SampledSpectrum r;
    for (int i = 0; i < kBandCount; ++i) r[i] = a[i] + t * (b[i] - a[i]);
    return r;
}

constexpr float sum(const SampledSpectrum& a) {
    float r = 0;
    for (int i = 0; i < kBandCount; ++i) r += a[i];
    return r;
}

constexpr float mean(const SampledSpectrum& a) {
    return sum(a) / kBandCount;
}

constexpr float max_value(const SampledSpectrum& a) {
    std::array<float, kBandCount> m = a.v;
    for (std::size_t left = kBandCount / 2; left > 0; left /= 2)
        for (std::size_t i = 0; i < left; ++i) m[i] = m[i] < m[i + left] ? m[i + left] : m[i];
    return m[0];
}
constexpr float min_value(const SampledSpectrum& a) {
    return *std::min_element(a.v.begin(), a.v.end());
}

inline bool all_finite(const SampledSpectrum& a) {
    return std::all_of(a.v.begin(), a.v.end(), [](float x) { return std::isfinite(x); });
}

}  // namespace rakelight
