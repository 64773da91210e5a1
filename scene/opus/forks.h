// Where a row is born or lost between two others, it ends in one piece cut to a wedge, with its two
// neighbours whole beside it: a fork. Left to itself a shared-out ground would round the end off. Tip and
// taper are common practice, no published source.
#pragma once

#include <span>
#include <vector>

#include "scene/flow/cells.h"

namespace rakelight {

/// The end of a row within a field.
struct RowEnd {
    std::size_t last = 0;    ///< seed of its last piece
    std::size_t before = 0;  ///< seed of the piece before that
    bool at_edge = false;    ///< it runs out along the field's edge: heads keep off those of the row beyond
};

struct ForkRules {
    double length_mm = 11;  ///< along the row, piece and joint
    double width_mm = 9;    ///< across it, piece and joint
    double joint_mm = 1;
};

/// Cuts the last cell of every end to a wedge as long as its taper asks; neighbouring cells give and take
/// what is over. One long side runs straight on as the joint beyond; of the row on the other side a head is
/// moved to the wedge's tip, where that is near, so that no piece is cut round it. `row_of` names the row of
/// each seed, as for straighten_heads. Ends whose cells do not lie side by side, as after another fork, stay
/// as they are.
void cut_forks(Cells& cells, std::vector<Seed>& seeds, std::span<const std::size_t> row_of,
               std::span<const RowEnd> ends, const ForkRules& rules);

}  // namespace rakelight
