// Reconstruction: from a grainy film to a calm one, for prints and drafts. The light of bodies is filtered,
// steered by what the film knows of each pixel; what a first surface mirrors stays as it was traced, so that
// no glint is made or lost. Numbers are never told of a filtered film.
#pragma once

#include "renderer/film.h"

namespace rakelight {

/// Samples of each pixel below which there are no two half-films to compare.
inline constexpr int kFewestToFilter = 16;

/// Rows above and below from which a filtered row takes light, or which decide on it: whoever filters some
/// rows of a picture gives as many more, and gets the bits of the whole picture.
inline constexpr int kFilterReach_px = 10;

/// Whether a film can be filtered: it has its guide, and samples enough everywhere.
bool can_be_filtered(const Film& film);

/// The film with the light of all groups together, filtered, as its only group; the rest as it was. One that
/// cannot be filtered keeps its light. The same film gives the same bits on any number of threads.
Film filtered(const Film& film);

}  // namespace rakelight
