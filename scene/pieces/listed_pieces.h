// A panel laid by a piece table instead of by rule: hand edits survive, and laying and rendering can be
// split.
#pragma once

#include "scene/model/piece.h"

namespace rakelight {

struct Layout;

/// Two pieces may lie this far in one another's ground before it is told: a hand's unevenness.
inline constexpr double kOverlapTolerance_mm = 0.1;

/// The pieces and stones that `Layout::piece_rows` lists, in that order; a table as it was written gives the
/// laying it was written from, to the bit. What a row leaves empty: centre of its outline, the direction of
/// its longest edge, the usual thickness, the common plane of the faces, no tilt, a seed from its field and
/// outline, the next free number. Overlaps are warnings. \throws LayoutError for outlines that are open,
/// crossed, hollow or off the panel, and for pieces that would stand in the substrate.
Laying take_listed_pieces(const Layout& layout);

}  // namespace rakelight
