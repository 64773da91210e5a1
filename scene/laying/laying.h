// Laying: from a layout to every piece and stone of the panel in plan and height.
#pragma once

#include "scene/model/piece.h"

namespace rakelight {

struct Layout;

/// Lays the whole panel, or takes the pieces of the layout's table (listed_pieces.h). Deterministic in the
/// layout and its seed; a changed field does not re-lay the others unless they lie in its shade. \throws
/// LayoutError (diagnostics.h) when a field is empty or too narrow for its piece.
Laying lay(const Layout& layout);

}  // namespace rakelight
