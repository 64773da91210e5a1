// The last look along an edge: what cutting has left open beside a stone or a border is closed, as a
// mosaicist does it, by a larger piece where the one beside it can reach in, and else by a filler cut to the
// gap.
#pragma once

#include <cstdint>
#include <vector>

#include "scene/model/piece.h"
#include "scene/opus/cutting.h"

namespace rakelight {

/// Looks at the pieces that lie along the edges of `ground` (up to the middle of its joints) one by one.
/// Pieces only grow, and up to `most_mm2`; fillers are appended. All keep a joint between them.
void close_up(std::vector<Piece>& pieces, const Region& ground, const CuttingRules& rules, double most_mm2,
              std::uint64_t seed);

}  // namespace rakelight
