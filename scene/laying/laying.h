// Laying: from a layout to every piece and stone of the panel in plan and height.
#pragma once

#include <string>
#include <vector>

#include "scene/model/piece.h"

namespace rakelight {

struct Layout;

/// Fields as they were laid, kept from one laying to the next: what the file says of a field and of all that
/// may bear on it, its ground, the edges
/// that its rows follow and its pieces. Only good while the files beside the layout stay as they are.
struct LaidFields {
    struct Field {
        std::string said;
        std::vector<std::vector<glm::dvec2>> ground_mm;  ///< and the edges
        std::vector<Piece> pieces;
    };
    std::vector<Field> fields;
    int taken = 0;  ///< of the last laying: fields that were not laid anew
};

/// Lays the whole panel, or takes the pieces of the layout's table (listed_pieces.h). Deterministic in the
/// layout and its seed; a changed field does not re-lay the others unless they lie in its shade. \throws
/// LayoutError (diagnostics.h) when a field is empty or too narrow for its piece.
/// `before`: takes from there what is still good, and leaves there what it lays.
Laying lay(const Layout& layout, LaidFields* before = nullptr);

}  // namespace rakelight
