// What rows that follow an edge run along: the edges of a field's ground as they would go on past the panel.
// A figure that is drawn over the panel's edge runs off it, and halo rows leave that edge alone unless asked.
#pragma once

#include <vector>

#include "scene/geometry/region.h"
#include "scene/opus/contours.h"

namespace rakelight {

struct Layout;

/// One a field. `ground`: of plan_regions. `footprints`: of the placed stones.
std::vector<Contours> plan_contours(const Layout& layout, const std::vector<Region>& ground,
                                    const std::vector<Ring>& footprints);

}  // namespace rakelight
