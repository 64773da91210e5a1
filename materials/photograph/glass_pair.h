// Transmittance and milkiness of translucent glass from photographs of one piece over white and over black:
// the two unknowns of a layer in each band from two readings (Kubelka 1948 in closed form gives the start;
// plate.h, with both faces and every slant, the answer). The camera looks square on, the light comes at 45
// degrees or evenly from all round, so that nothing mirrored by the upper face is in the readings; what the
// faces keep back and what the lower one mirrors inside is taken off by the plate's own model.
#pragma once

#include "materials/colour/sampled_spectrum.h"
#include "materials/optics/plate.h"

namespace rakelight {

/// What was read: radiance factors by band, 1 for a perfect diffuser in the same light.
struct GlassPair {
    SampledSpectrum over_white, over_black;
    SampledSpectrum white_card, black_card;  ///< the cards alone; of a bonded pair, as they are in contact
    double thickness_mm = 3;
    double index = 1.52;  ///< above 1
    Lying lying = Lying::dry;
    PhotographLight light = PhotographLight::at_45_deg;
};

/// A glass as the keys of a stock file say it.
struct GlassOfPair {
    SampledSpectrum transmittance;   ///< inside, of a straight ray through the thickness, faces left out
    SampledSpectrum milkiness;       ///< Kubelka-Munk scattering per mm
    bool milkiness_assumed = false;  ///< not measured: over one card only
    double misfit = 0;               ///< root mean square of what no glass explains, radiance factor
};

/// \throws std::invalid_argument, naming the wavelength, for a reading that no glass over these cards gives:
/// brighter over black than over white, darker or brighter than can be; or cards, thickness or index out of
/// range.
GlassOfPair glass_of_pair(const GlassPair& pair);

/// Over one card only. `milkiness_per_mm` is assumed, such as that of a glass of the same kind.
GlassOfPair glass_of_one(const SampledSpectrum& seen, const SampledSpectrum& card, double thickness_mm,
                         double milkiness_per_mm = 0, double index = 1.52, Lying lying = Lying::dry,
                         PhotographLight light = PhotographLight::at_45_deg);

}  // namespace rakelight
