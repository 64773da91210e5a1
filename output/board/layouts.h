// The layout of every cell of a sample board.
#pragma once

#include <string>
#include <vector>

#include "output/board/board.h"
#include "scene/model/layout.h"
#include "scene/text/yaml_document.h"

namespace rakelight {

struct CellLayout {
    Layout layout;  ///< one viewpoint, straight before the part, and one picture, of the cell's lamps
    std::string geometry, light, colours;  ///< what cells of equal words can share
};

/// Row by row. Where choices switch lamps, every lamp and window is a group of its own.
/// `tree`: of the layout file; `layout`: what it says. \throws LayoutError with all the problems of all
/// choices.
std::vector<CellLayout> lay_out_cells(const YamlValue& tree, const Layout& layout, const BoardPlan& plan);

/// Reads the board of a layout file, if it has one, and the layouts of its cells. \throws LayoutError.
void check_board(const std::string& file, const Layout& layout);

}  // namespace rakelight
