// The cuts of a diptych: pieces cut straight at both edges of the gaps between panels, as at the edge of a
// panel, and ground kept off the gaps for what cannot be cut.
#pragma once

#include <vector>

#include "scene/geometry/region.h"
#include "scene/model/piece.h"

namespace rakelight {

struct CuttingRules;
struct Field;
struct Panel;

/// The ground less what lies behind the gaps, up to `kDrawnIn` joints from their edges: for stones,
/// pebbles and beads, which stand whole on one panel or the other. The ground itself where the panel is not
/// divided.
Region off_gaps(const Region& ground, const Panel& panel, double joint_mm);

/// Cuts the pieces of a field at the gaps of a divided panel: those behind a gap go, those that reach into it
/// are cut off flush, and those that end within a joint of it reach it. A remnant under half a whole piece
/// goes to a neighbour, which is then cut larger, up to 1.55 times a whole piece, as at the end of a row;
/// where none can take it, it stays if the rules for the smallest remnant let it, and is left to the joint if
/// not. What is drawn piece by piece is cut and not given away. Of pieces in their order; deterministic.
void cut_at_gaps(const Field& field, const Panel& panel, const CuttingRules& rules,
                 std::vector<Piece>& pieces);

}  // namespace rakelight
