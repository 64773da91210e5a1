// A film as the eye that saw it: which way each pixel lies, and how large it is.
#pragma once

#include <glm/glm.hpp>
#include <vector>

#include "renderer/camera.h"
#include "renderer/film.h"

namespace rakelight {

/// What one pixel of a picture adds to the field of view.
struct SeenPatch {
    glm::dvec3 direction{0, 0, -1};  ///< unit, from the eye
    double cd_per_m2 = 0;
    double solid_angle_sr = 0;
};

/// One patch a pixel, row by row. `camera` is the one the film was rendered through; directions are room's.
std::vector<SeenPatch> seen_patches(const Film& film, const Camera& camera);

}  // namespace rakelight
