// Whose grout lies where, as areas: the ground of each field up to the far side of its joints with fields
// listed later. A joint between two fields is wholly of the one listed first (joint_tint.h); along the far
// side of it runs the knife. What is left round stones goes to the field beside it.
#pragma once

#include <vector>

#include "scene/geometry/region.h"
#include "scene/laying/region_plan.h"

namespace rakelight {

struct Layout;

/// One a field; apart from one another, and all of the panel but the footprints between them. Pieces are
/// within. `ground`: of each field, on the panel, up to the middle of its joints (region_plan.h).
std::vector<Region> grout_regions(const Layout& layout, const std::vector<Region>& ground,
                                  const std::vector<Ring>& footprints);

/// The grounds of plan_regions, cut at the panel's edge.
std::vector<Region> grounds_on_panel(const Layout& layout, const std::vector<Ring>& footprints);

}  // namespace rakelight
