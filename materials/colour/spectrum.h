// A finely sampled spectrum: a lamp, an observer, or a reflectance before it is reduced to bands. Used when a
// scene is prepared, never along a light path. 380 to 780 nm every 5 nm is what CIE 015:2018 allows in
// practice.
#pragma once

#include <array>
#include <cstddef>
#include <initializer_list>
#include <span>

#include "materials/colour/sampled_spectrum.h"

namespace rakelight {

inline constexpr int kSpectrumCount = 81;
inline constexpr int kSpectrumFirst_nm = 380;
inline constexpr int kSpectrumStep_nm = 5;

/// Wavelength of a sample in nanometres; `i` in [0, kSpectrumCount).
constexpr int spectrum_wavelength_nm(int i) {
    return kSpectrumFirst_nm + kSpectrumStep_nm * i;
}

/// Values at spectrum_wavelength_nm(i). Unit and range are those of the quantity it holds.
struct Spectrum {
    std::array<double, kSpectrumCount> v{};

    constexpr double& operator[](int i) { return v[static_cast<std::size_t>(i)]; }
    constexpr double operator[](int i) const { return v[static_cast<std::size_t>(i)]; }
    friend constexpr bool operator==(const Spectrum&, const Spectrum&) = default;
};

/// One reading of a curve.
struct SpectralPoint {
    double wavelength_nm = 0;
    double value = 0;
};

/// How a curve runs between its points. Neither overshoots the points on either side.
enum class Between {
    linear,
    monotone,  ///< cubic Hermite with the slopes of Fritsch and Butland 1984: smooth, flat at every extreme
};

/// What a curve is outside its points.
enum class Outside {
    end_value,  ///< a reflectance goes on as it ended
    zero,       ///< a measured lamp gives nothing where nothing was measured
};

/// The curve through `points`, sampled every 5 nm.
/// \throws std::invalid_argument if there is no point, if wavelengths do not ascend strictly, or if a number
/// is not finite.
Spectrum spectrum_from_points(std::span<const SpectralPoint> points, Between between = Between::linear,
                              Outside outside = Outside::end_value);

/// The same from values at a constant step, the first at `first_nm`.
/// \throws std::invalid_argument as above, or if `step_nm` is not positive.
Spectrum spectrum_from_table(double first_nm, double step_nm, std::span<const double> values,
                             Between between = Between::linear, Outside outside = Outside::end_value);

/// Values at the band wavelengths; what lies between them is lost.
SampledSpectrum to_bands(const Spectrum& spectrum);

/// The curve through a few hand-set points, at the band wavelengths; beyond the points it keeps its end
/// value. As no value passes outside the points' own, a reflectance so authored stays within 0..1. \throws
/// std::invalid_argument as spectrum_from_points.
SampledSpectrum bands_from_points(std::span<const SpectralPoint> points, Between between = Between::monotone);
SampledSpectrum bands_from_points(std::initializer_list<SpectralPoint> points,
                                  Between between = Between::monotone);

}  // namespace rakelight
