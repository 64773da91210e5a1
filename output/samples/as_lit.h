// Between what a camera sees of a face and what a stock file says of a body: light that comes from the side
// at about 45 degrees, or evenly from everywhere, seen square on.
#pragma once

#include "materials/optics/material.h"
#include "materials/photograph/glass_pair.h"
#include "output/samples/sample_file.h"

namespace rakelight {

/// An opaque material that would be seen so, its face and unevenness as told; at most 98 % inside the face.
Material with_seen(Material material, const SampledSpectrum& seen, LitFrom lit);

/// Glass laid over cards, from reflectance factors seen, by glass_of_pair: what the face mirrors of a
/// bright room all round is taken off. \throws as glass_of_pair.
GlassOfPair glass_of_seen(const GlassPair& seen, LitFrom lit, Lying lies);

/// Over white alone, its milkiness told. \throws as glass_of_pair.
GlassOfPair glass_over_white(const GlassPair& seen, double milkiness_per_mm, LitFrom lit, Lying lies);

/// A translucent material with the colour of `glass`.
Material with_glass(Material material, const GlassOfPair& glass, double thickness_mm);

/// What a camera would see of a material over a card: the reflectance factor, of glass by the plate that it
/// is read by (plate.h), of all else as it renders.
SampledSpectrum seen_as_lit(const Material& material, double thickness_mm, const SampledSpectrum& card,
                            LitFrom lit, Lying lies = Lying::dry);

}  // namespace rakelight
