// From linear sRGB to a spectrum of light: three smooth primary lights that add up to D65 and have the
// colours of the sRGB primaries, so that a picture's red, green and blue are amounts of them (spectral
// primary decomposition: Mallett and Yuksel 2019, "Spectral Primary Decomposition for Rendering with sRGB
// Reflectance", EGSR). Of all such shares of D65 that are nowhere negative those were taken whose steps from
// 5 nm to 5 nm have the least sum of squares. A camera sees no spectra: a lamp of narrow lines comes out as
// smooth as any other of its colour.
#pragma once

#include <array>

#include "materials/colour/tristimulus_weights.h"

namespace rakelight {

/// Spectral power of red, green and blue of 1; together D65 of luminance 1.
const std::array<Spectrum, 3>& primary_lights();

/// Spectral power of a linear sRGB colour, components not negative.
Spectrum light_of_rgb(const std::array<double, 3>& rgb);

/// What turns bands into XYZ where a light path meets a picture.
struct PrimaryWeights {
    std::array<TristimulusWeights, 3> of;  ///< of red, green and blue of 1, each times its luminance
    std::array<float, 3> luminance{};      ///< Y of the three, together 1
};

PrimaryWeights primary_weights();

/// The weights of a linear sRGB colour, for a luminance of 1; `rgb` not negative, not black.
inline TristimulusWeights weights_of_rgb(const PrimaryWeights& primaries, const std::array<float, 3>& rgb) {
    const std::array<float, 3>& y = primaries.luminance;
    const float factor = 1 / (rgb[0] * y[0] + rgb[1] * y[1] + rgb[2] * y[2]);
    TristimulusWeights sum;
    for (std::size_t c = 0; c < 3; ++c) {
        const float share = rgb[c] * factor;
        for (int b = 0; b < kBandCount; ++b) {
            sum.x[b] += share * primaries.of[c].x[b];
            sum.y[b] += share * primaries.of[c].y[b];
            sum.z[b] += share * primaries.of[c].z[b];
        }
    }
    return sum;
}

}  // namespace rakelight
