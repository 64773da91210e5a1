// The last look: what cutting has left open beside a stone, a border or the end of a row is closed, as a
// mosaicist does it, by a larger piece where the one beside it can reach in, and else by a filler cut to the
// gap.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "scene/model/piece.h"
#include "scene/opus/cutting.h"

namespace rakelight {

/// Looks at the pieces that lie along the edges of `ground` (up to the middle of its joints), and at those
/// close to `places`, one by one. Pieces only grow, and up to `most_mm2`; fillers are appended. All keep a
/// joint between them.
void close_up(std::vector<Piece>& pieces, const Region& ground, const CuttingRules& rules, double most_mm2,
              std::uint64_t seed, std::span<const glm::dvec2> places = {});

}  // namespace rakelight
