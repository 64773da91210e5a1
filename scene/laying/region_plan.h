// Which ground each field has: its outline less the outlines of fields before it and the footprints of the
// stones.
#pragma once

#include <vector>

#include "scene/geometry/region.h"

namespace rakelight {

struct Layout;
struct Panel;

/// The front of a panel; of a divided work the fronts of all its panels, without the gaps between them.
Region panel_region(const Panel& panel);

/// One region a field, up to the middle of its joints: two fields side by side, each drawn in by half its own
/// joint, are parted by the mean of the two. At the panel's edge the ground reaches half a joint beyond, so
/// that the outermost pieces end flush with the edge. `footprints`: of the placed stones. \throws LayoutError
/// for every field that has no ground, or none wide enough for a piece.
std::vector<Region> plan_regions(const Layout& layout, const std::vector<Ring>& footprints);

/// The same as it is drawn, up to `beyond_mm` past the panel; fields may be empty.
std::vector<Region> regions_beyond(const Layout& layout, const std::vector<Ring>& footprints,
                                   double beyond_mm);

}  // namespace rakelight
