// What stands under a cell of a sample board.
#pragma once

#include <vector>

#include "output/board/sheet.h"

namespace rakelight {

inline constexpr double kBoardCaption_mm = 41;  ///< height of it

/// Sets the caption of a cell below its picture, with its patches. `ranked`: how many cells its rank is
/// among.
void add_caption(BoardSheet& sheet, const BoardCell& cell, std::size_t index, const glm::dvec2& at_mm,
                 double width_mm, std::size_t ranked);

}  // namespace rakelight
