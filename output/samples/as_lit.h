// Between what a camera sees of a face and what a stock file says of a body: light that comes from the side
// at about 45 degrees, or evenly from everywhere, seen square on.
#pragma once

#include "materials/optics/material.h"
#include "materials/photograph/glass_pair.h"
#include "output/samples/sample_file.h"

namespace rakelight {

/// An opaque material that would be seen so, its face and unevenness as told; at most 98 % inside the face.
Material with_seen(Material material, const SampledSpectrum& seen, LitFrom lit);

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
