// Sixteen spectral bands, 400 to 700 nm every 20 nm: the spectrum that a light path carries.
// A band value is the value of the spectrum at the band's wavelength (a node, not an average); colorimetric
// weights interpolate between nodes (see lamp_weights.h), after the method of ASTM E308.
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
struct alignas(64) Bands {
    std::array<float, kBandCount> v{};

    constexpr Bands() = default;
    /// The same value in every band.
    explicit constexpr Bands(float value) { v.fill(value); }

    constexpr float& operator[](int band) { return v[static_cast<size_t>(band)]; }
    constexpr float operator[](int band) const { return v[static_cast<size_t>(band)]; }
    friend constexpr bool operator==(const Bands&, const Bands&) = default;
};

#define RAKELIGHT_BANDS_OPERATOR(op)                            \
    constexpr Bands& operator op##=(Bands& a, const Bands& b) { \
        for (int i = 0; i < kBandCount; ++i) a[i] op## = b[i];  \
        return a;                                               \
    }                                                           \
    constexpr Bands& operator op##=(Bands& a, float b) {        \
        for (int i = 0; i < kBandCount; ++i) a[i] op## = b;     \
        return a;                                               \
    }                                                           \
    constexpr Bands operator op(Bands a, const Bands& b) {      \
        return a op## = b;                                      \
    }                                                           \
    constexpr Bands operator op(Bands a, float b) {             \
        return a op## = b;                                      \
    }                                                           \
    constexpr Bands operator op(float a, const Bands& b) {      \
        return Bands(a) op b;                                   \
    }
RAKELIGHT_BANDS_OPERATOR(+)
RAKELIGHT_BANDS_OPERATOR(-)
RAKELIGHT_BANDS_OPERATOR(*)
RAKELIGHT_BANDS_OPERATOR(/)
#undef RAKELIGHT_BANDS_OPERATOR

/// `f(value)` for each band.
template <class F>
constexpr Bands map(const Bands& a, F&& f) {
    Bands r;
    for (int i = 0; i < kBandCount; ++i) r[i] = f(a[i]);
    return r;
}

constexpr Bands lerp(const Bands& a, const Bands& b, float t) {
    Bands r;
    for (int i = 0; i < kBandCount; ++i) r[i] = a[i] + t * (b[i] - a[i]);
    return r;
}

constexpr float sum(const Bands& a) {
    float r = 0;
    for (int i = 0; i < kBandCount; ++i) r += a[i];
    return r;
}

constexpr float mean(const Bands& a) {
    return sum(a) / kBandCount;
}

constexpr float max_value(const Bands& a) {
    return *std::max_element(a.v.begin(), a.v.end());
}
constexpr float min_value(const Bands& a) {
    return *std::min_element(a.v.begin(), a.v.end());
}

inline bool all_finite(const Bands& a) {
    return std::all_of(a.v.begin(), a.v.end(), [](float x) { return std::isfinite(x); });
}

}  // namespace rakelight
