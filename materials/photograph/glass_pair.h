// Transmittance and milkiness of translucent glass from photographs of one piece over white and over black:
// the two unknowns of a layer in each band from two readings (Kubelka 1948 in closed form gives the start;
// plate.h, with both faces and every slant, the answer). The camera looks square on, the light comes at 45
// degrees or evenly from all round, so that nothing mirrored by the upper face is in the readings; what the
// faces keep back and what the lower one mirrors inside is taken off by the plate's own model.
#pragma once

#include "materials/colour/sampled_spectrum.h"
#include "materials/optics/plate.h"

namespace rakelight {

/// What was read: radiance factors by band, 1 for a perfect diffuser in the same light. As they stand the
/// readings are those of the key `reflectance` of a material: evenly lit, square on, mirrored light left out,
/// glass and card in optical contact. A photograph of a loose piece on a card says `lying` dry, and its
/// light.
struct GlassPair {
    SampledSpectrum over_white, over_black;
    SampledSpectrum white_card, black_card;  ///< the cards alone; of a bonded pair, as they are in contact
    double thickness_mm = 3;
    double index = 1.52;  ///< above 1
    Lying lying = Lying::bonded;
    PhotographLight light = PhotographLight::diffuse;
};

/// A glass as the keys of a stock file say it.
struct GlassOfPair {
    SampledSpectrum transmittance;  ///< inside, of a straight ray through the thickness, faces left out
    /// Kubelka-Munk scattering per mm by band, as the key `milkiness` takes pairs; `transmittance` goes with
    /// it.
    SampledSpectrum milkiness_by_band;
    double milkiness = 0;            ///< one for all bands: their mean, weighted by how well each is known
    bool milkiness_assumed = false;  ///< not measured: over white only
    double misfit = 0;               ///< root mean square of what no glass explains, radiance factor
};

/// \throws std::invalid_argument, naming the wavelength, for a reading that no glass over these cards gives:
/// brighter over black than over white, darker or brighter than can be; or cards, thickness or index out of
/// range.
GlassOfPair glass_of_pair(const GlassPair& pair);

/// Over white only; what was read over black is not looked at. `milkiness_per_mm` is assumed, such as that of
/// a glass of the same kind. \throws std::invalid_argument as above.
GlassOfPair glass_of_white(const GlassPair& pair, double milkiness_per_mm);

}  // namespace rakelight
