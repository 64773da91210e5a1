// Between what a camera sees of a face and what a stock file says of a body: light that comes from the side
// at about 45 degrees, or evenly from everywhere, seen square on.
#pragma once

#include "materials/optics/material.h"
#include "materials/photograph/glass_pair.h"
#include "output/samples/sample_file.h"

namespace rakelight {

/// The key `reflectance` of an opaque material under a smooth face of this index (1 = none), from the
/// reflectance factor seen; never more than the face lets out.
SampledSpectrum reflectance_of_seen(const SampledSpectrum& seen, double index, LitFrom lit);

/// Inside such a face, as a material keeps it.
SampledSpectrum inside_face(const SampledSpectrum& reflectance, double index);

/// Glass over cards, from reflectance factors seen, by glass_of_pair; what the face does to light from the
/// side is taken into account as the material renders. \throws as glass_of_pair.
GlassOfPair glass_of_seen(const GlassPair& seen, LitFrom lit);

/// Over white alone, its milkiness told. \throws as glass_of_pair.
GlassOfPair glass_over_white(const GlassPair& seen, double milkiness_per_mm, LitFrom lit);

/// A translucent material with the colour of `glass`.
Material with_glass(Material material, const GlassOfPair& glass, double thickness_mm);

/// What a camera would see of a material over a card: the reflectance factor as it renders.
SampledSpectrum seen_as_lit(const Material& material, double thickness_mm, const SampledSpectrum& card,
                            LitFrom lit);

}  // namespace rakelight
