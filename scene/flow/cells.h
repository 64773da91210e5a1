// A Voronoi partition of a field's ground: the region of a field shared out among its coming pieces. Each
// piece is foreseen as a few points along the middle of its row; it gets all the ground nearer to its points
// than to those of any other piece (a Voronoi diagram of short lines, by Boost.Polygon). Rows then meet half
// way, head joints stand square across the row, curved rows yield keystones, and what is left at an edge is
// shared between neighbours: nothing is left over.
#pragma once

#include <span>
#include <vector>

#include "scene/geometry/region.h"

namespace rakelight {

/// A piece to be: points along its middle, and the direction of its row.
struct Seed {
    std::vector<glm::dvec2> points_mm;
    glm::dvec2 along{1, 0};
};

struct Cells {
    std::vector<Ring> of_seed;  ///< counter-clockwise; empty where a seed got nothing
    std::vector<Ring> orphans;  ///< ground cut off from its seed by the region's edge
};

/// Shares `region` out among `seeds`. The cells cover it and do not overlap.
Cells share_out(std::span<const Seed> seeds, const Region& region);

/// Moves the seeds `pull` (0..1) of the way to the middle of their cells (Lloyd 1982) and gives orphaned
/// ground of at least `least_orphan_mm2` a seed of its own.
void move_seeds(const Cells& cells, std::vector<Seed>& seeds, double pull, double least_orphan_mm2);

/// Shares out once more, after moving the seeds `pull` (0..1) of the way to the middle of their cells (Lloyd
/// 1982) and giving orphaned ground of at least `least_orphan_mm2` a seed of its own.
Cells settle(const Cells& cells, std::vector<Seed>& seeds, const Region& region, double pull,
             double least_orphan_mm2);

/// Gives every orphan of at most `most_mm2` to the cell along which it lies longest, if both then make one
/// piece without a deep hollow. The rest stay orphans.
void adopt_orphans(Cells& cells, double most_mm2);

}  // namespace rakelight
