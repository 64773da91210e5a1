// The reflectance that photographs of a sample leave likely: band by band the most probable curve, and how
// far it could be another one that a camera sees as the same (metamers). Curves are taken to change smoothly
// with wavelength as the logarithm of r / (1 - r), which keeps them between 0 and 1 (after Burns 2020, Color
// Res. Appl. 45, 8, "smallest hyperbolic tangent slope"), about the mean of the chart's patches; light that
// channels saw is fitted to their noise. Every photograph adds its three channels. Posterior by Laplace's
// method (Rasmussen and Williams 2006, chapter 3.4).
#pragma once

#include <array>
#include <span>
#include <vector>

#include "materials/photograph/camera_bands.h"

namespace rakelight {

/// A sample in one photograph, tone curve and uneven light undone.
struct SeenSample {
    CameraBands camera{};
    CameraRgb value{};
    std::array<bool, 3> usable{true, true, true};
    double level_doubt = 0;  ///< of the light there, relative standard deviation, the same for all channels
};

struct ReflectanceEstimate {
    SampledSpectrum reflectance;             ///< 0..1
    SampledSpectrum doubt;                   ///< standard deviation of each band
    std::array<double, kBandCount> logit{};  ///< log(r / (1 - r)) of `reflectance`
    /// Lower Cholesky factor of the covariance of `logit`.
    std::array<std::array<double, kBandCount>, kBandCount> spread{};
};

/// \throws std::invalid_argument when no channel of any photograph is usable.
ReflectanceEstimate estimate_reflectance(std::span<const SeenSample> photographs);

/// A curve that the photographs leave possible, drawn by chance; `standard_normal`: one number for each band.
SampledSpectrum possible_curve(const ReflectanceEstimate& estimate,
                               const std::array<double, kBandCount>& standard_normal);

}  // namespace rakelight
