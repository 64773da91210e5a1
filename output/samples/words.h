// Words and colours that sheet, numbers and stock library of samples share.
#pragma once

#include <array>

#include "materials/colour/colorimetry.h"
#include "materials/colour/illuminants.h"
#include "materials/colour/tristimulus_weights.h"
#include "output/samples/sample_file.h"

namespace rakelight {

inline const char* over_word(Over over) {
    return std::array{"alone", "white", "black"}[static_cast<std::size_t>(over)];
}

/// A reflectance under a lamp, for an eye adapted to it.
inline Lab lab_under(const Spectrum& lamp, const SampledSpectrum& reflectance) {
    const TristimulusWeights weights = tristimulus_weights(lamp);
    const auto seen = integrate(weights, reflectance), white = integrate(weights, SampledSpectrum(1));
    return xyz_to_lab({seen[0], seen[1], seen[2]}, {white[0], white[1], white[2]});
}

}  // namespace rakelight
