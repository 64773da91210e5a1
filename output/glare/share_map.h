// How much of what is seen is mirrored by the first face and not the colour of the material: a map of it.
#pragma once

#include "output/print/develop.h"
#include "renderer/film.h"

namespace rakelight {

/// Colour of a share, 0..1: one hue, from white (all the panel's own light) to deep orange (nothing but
/// mirrored light), so that it is not mistaken for a luminance. It darkens evenly as a grey printer shows it.
EncodedSrgb share_colour(double share);

/// The film's first-surface share; what is no piece of the panel is grey.
Print share_map(const Film& film);

/// The film with `factor` x `factor` pixels averaged into one: light, and what the first face mirrors of it.
/// Its sides must be multiples of `factor`. \throws std::invalid_argument when they are not.
Film shrunk(const Film& film, int factor);

}  // namespace rakelight
