// The layout of every cell of a sample board.
#pragma once

#include <string>
#include <vector>

#include "output/board/board.h"
#include "scene/model/layout.h"

namespace rakelight {

struct CellLayout {
    Layout layout;  ///< one viewpoint, straight before the part, and one picture, of the cell's lamps
    std::string geometry, light, colours;  ///< what cells of equal words can share
};

/// Row by row. Where choices switch lamps, every lamp and window is a group of its own.
/// \throws LayoutError with all the problems of all choices.
std::vector<CellLayout> lay_out_cells(const Layout& layout, const BoardPlan& plan);

/// Reads the board of a layout, if it has one, and the layouts of its cells. \throws LayoutError.
void check_board(const Layout& layout);

}  // namespace rakelight
