// What is where on the printed sheet of marks. Places are millimetres from the upper left corner, y down. The
// marks are those of the predefined dictionary 5X5_50 of OpenCV's aruco: a black border round five by five
// squares that are a number.
#pragma once

#include <array>
#include <cstdint>
#include <glm/glm.hpp>
#include <vector>

#include "output/paper/paper_size.h"

namespace rakelight {

inline constexpr int kMarkSquares = 5;  ///< a side, without the border of one square
inline constexpr int kMarks = 12;

/// Whether the square of a mark is white; column and row count from its upper left one.
bool white_square(int mark, int column, int row);

struct PlacedMark {
    int number = 0;
    glm::dvec2 at_mm{};  ///< its upper left corner
    double size_mm = 0;  ///< with its border

    /// Clockwise from the upper left.
    std::array<glm::dvec2, 4> corners_mm() const;
};

/// A page with a mark in each corner and a frame to lay things in.
struct MarkSheet {
    PaperSize paper;
    std::array<PlacedMark, 4> marks;
    glm::dvec2 frame_at_mm{};
    glm::dvec2 frame_size_mm{};
};

/// On A4 and on US Letter; their marks differ, so that a photograph says which of them it shows.
const std::array<MarkSheet, 2>& mark_sheets();

/// Four cards that lie under the corners of a drawing, from its upper left one clockwise: a square of this
/// side, with a mark 5 mm off an angle that the drawing's corner is laid to.
inline constexpr double kCard_mm = 65, kCardMark_mm = 35, kCardGap_mm = 5;

/// The marks of the cards about a drawing of this size, whose upper left corner is 0, 0.
std::array<PlacedMark, 4> card_marks(const glm::dvec2& drawing_mm);

/// Where on its card a corner of the drawing lies.
glm::dvec2 angle_on_card_mm(std::size_t card);

}  // namespace rakelight
