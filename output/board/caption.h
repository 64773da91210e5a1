// What a sample board says of a cell: its name under the picture, its figures on the other sheet.
#pragma once

#include <vector>

#include "output/board/sheet.h"

namespace rakelight {

inline constexpr double kCellName_mm = 5.4;     ///< height of the line under a picture
inline constexpr double kBoardCaption_mm = 47;  ///< height of a cell's figures

/// The line under a picture: the cell's name, and its rank when there is one.
void add_name(Page& page, const BoardCell& cell, const glm::dvec2& at_mm, double width_mm,
              std::size_t ranked);

/// Sets the figures of a cell on the sheet of figures, with its patches. `ranked`: how many cells its rank is
/// among.
void add_caption(BoardSheet& sheet, const BoardCell& cell, std::size_t index, const glm::dvec2& at_mm,
                 double width_mm, std::size_t ranked);

}  // namespace rakelight
