// Stones from small to large: discs whose cells come out as large as was asked, each of its own size.
#pragma once

#include "materials/maths/hash.h"
#include "scene/geometry/edge_index.h"
#include "scene/geometry/region_tiles.h"
#include "scene/opus/power_cells.h"

namespace rakelight {

/// Sides of squares with the area of as many stones as fill the ground, mm, the largest first: as many of one
/// size as of another between the two of `sizes_mm`. Each has half of the joint round it.
std::vector<double> sizes_that_fill(double ground_mm2, const glm::dvec2& sizes_mm, double joint_mm);

/// A disc for each, strewn over the ground: large ones first, small ones into the gaps.
std::vector<Disc> discs_of_sizes(const Region& ground, const glm::dvec2& sizes_mm, double joint_mm, Rng& rng);

/// Moves discs to the middles of their cells and gives them the weights with which each cell has the area it
/// should have (a power diagram with given areas: Aurenhammer, Hoffmann, Aronov, "Minkowski-type theorems and
/// least-squares clustering", Algorithmica 1998).
void settle_to_sizes(std::vector<Disc>& discs, const RegionTiles& ground, double mean_radius_mm,
                     const EdgeIndex& edge);

}  // namespace rakelight
