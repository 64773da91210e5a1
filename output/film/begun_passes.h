// Passes over a picture that were interrupted, on disk beside where it will be: STEM.begun-passes.bin holds
// the sums of all tiles as they lay in memory, for the same build of the program alone.
#pragma once

#include "output/film/begun_film.h"
#include "renderer/passes.h"

namespace rakelight {

/// Puts what is kept of this picture into passes that have not begun, and says whether there was anything.
/// What is of another scene, build or size, or damaged, counts as nothing; damage is told.
bool take_up_passes(const BegunPlace& place, Passes& passes);

/// Keeps passes in place of those that were kept before. \throws OutputError; then those are still there.
void keep_passes(const BegunPlace& place, Passes& passes);

/// How much of this picture is kept, in whole per cent, at least 1; 0 = nothing is kept.
int begun_percent(const BegunPlace& place);

}  // namespace rakelight
