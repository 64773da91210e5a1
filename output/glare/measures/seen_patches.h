// A film as the eye that saw it: which way each pixel lies, and how large it is.
#pragma once

#include <vector>

#include "output/glare/measures/unified_glare.h"
#include "renderer/camera.h"
#include "renderer/film.h"

namespace rakelight {

/// One patch a pixel, row by row. `camera` is the one the film was rendered through; directions are room's.
std::vector<SeenPatch> seen_patches(const Film& film, const Camera& camera);

}  // namespace rakelight
