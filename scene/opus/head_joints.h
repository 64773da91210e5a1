// The head joints of a row as a hand sets them. Pieces of a row are rectangles as long as the joint can take
// the opening that a curve asks for; beyond that each gives up just so much at its heads that the joint opens
// by the tolerance and no more (keystone.h has the arithmetic). A head then is one straight edge, square to
// the chord of its piece but for what a keystone needs.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "scene/flow/cells.h"

namespace rakelight {

struct HeadRules {
    double width_mm = 10;        ///< of a piece, across the row
    double tolerance_mm = 0.75;  ///< how much a head joint may open from one side of the row to the other
    double lean_rad = 0.02;      ///< standard deviation of the hand, of a whole joint
};

/// Straightens the heads between consecutive seeds of a row: `row_of[s]` names the row of seed `s`; seeds of
/// one row follow one another, those without points are passed over, seeds beyond `row_of` belong to none.
/// Where a head is not one line between two rows the cells stay as they are. Neighbouring cells may overlap
/// by a quarter of the tolerance afterwards.
void straighten_heads(std::vector<Ring>& cells, std::span<const Seed> seeds,
                      std::span<const std::size_t> row_of, const HeadRules& rules, std::uint64_t seed);

}  // namespace rakelight
