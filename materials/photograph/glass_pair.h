// Clear or milky glass from how it looks over white and over black: absorption in every band, and one
// milkiness, through the same layer that renders (layer.h).
#pragma once

#include "materials/colour/sampled_spectrum.h"

namespace rakelight {

/// Reflectances are seen face-on under diffuse light, what the face mirrors left out, as the key
/// `reflectance` of a material; those of the cards as they lie in optical contact behind the glass.
struct GlassPair {
    SampledSpectrum over_white, over_black;
    SampledSpectrum white_card, black_card;
    double thickness_mm = 3;
    double index = 1.52;
};

/// As a material of a layout says it.
struct GlassOfPair {
    SampledSpectrum transmittance;  ///< inside, at the pair's thickness; 1e-6..1
    double milkiness = 0;           ///< scattering per millimetre
};

/// \throws std::invalid_argument when black is brighter than white in the mean, or the thickness is not above
/// 0.
GlassOfPair glass_of_pair(const GlassPair& pair);

/// The same over white alone, with a milkiness that is told. \throws std::invalid_argument as above.
GlassOfPair glass_of_white(const GlassPair& pair, double milkiness);

}  // namespace rakelight
