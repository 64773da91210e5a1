// The light of a photograph, where no lamps are known: even light of the photograph's mean colour from all
// round, and a main light that makes it white where the panel hangs, as the sheet is.
#pragma once

#include <span>

#include "output/in_photograph/wall_photograph.h"
#include "scene/model/lighting.h"

namespace rakelight {

/// `mean_rgb`: the photograph's, where the sheet under the same light is 1, 1, 1.
Lighting photographed_light(const glm::dvec3& mean_rgb, const MainLight& main);

}  // namespace rakelight
