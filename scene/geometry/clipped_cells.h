// Convex cells where they meet the edge of the ground they divide.
#pragma once

#include <vector>

#include "scene/geometry/edge_index.h"
#include "scene/geometry/region_tiles.h"

namespace rakelight {

/// Cuts cells down to what lies on the ground; a cell off it becomes empty. Of a cell that comes apart the
/// largest part stays; returns the other parts.
std::vector<Ring> clip_cells(std::vector<Ring>& cells, const RegionTiles& ground, const EdgeIndex& edge);

/// Too small (15 % of the mean) or too thin (a third of the mean's side) to be picked up and set; common
/// practice, no published source.
bool is_sliver(const Ring& ring, double mean_mm2);

}  // namespace rakelight
