// How much of what is seen is mirrored by the first face and not the colour of the stuff: a map of it.
#pragma once

#include "output/print/develop.h"
#include "renderer/film.h"

namespace rakelight {

/// Colour of a share, 0..1: from deep (all the stuff's own colour) to white (nothing but mirrored light),
/// even in lightness, in the colours of the luminance map.
EncodedSrgb share_colour(double share);

/// The film's first-surface share; what is no piece of the panel is grey.
Print share_map(const Film& film);

/// The film with `factor` x `factor` pixels averaged into one: light, and what the first face mirrors of it.
/// Its sides must be multiples of `factor`. \throws std::invalid_argument when they are not.
Film shrunk(const Film& film, int factor);

}  // namespace rakelight
