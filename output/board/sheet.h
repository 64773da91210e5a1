// A sample board on two sheets of a neutral grey: the pictures, which take two thirds of the first, the three
// that come nearest to the aim once more and large; and what they say in figures on the second, with patches
// of colours.
#pragma once

#include <string>
#include <vector>

#include "output/board/render.h"
#include "output/paper/page.h"

namespace rakelight {

inline constexpr double kBoard_px_per_mm = 10;  ///< 254 dots an inch, as fine as a sheet gets

/// A patch of one colour on the sheet of figures.
struct BoardPatch {
    std::size_t cell = 0;
    std::string what;  ///< "joint", "pieces" or "mean"
    Lab lab;
    bool in_srgb = true;  ///< else drawn less vivid
    PageBox box;
};

/// A cell's picture once more.
struct LargeCell {
    std::size_t cell = 0;
    PageBox box;
};

struct BoardSheet {
    Page page;
    double px_per_mm = kBoard_px_per_mm;  ///< of the sheet of pictures
    std::vector<PageBox> cells;           ///< where their pictures go, in their order
    std::vector<LargeCell> large;         ///< the best three, the first first; empty without an aim
    Page figures;
    std::vector<BoardPatch> patches;
};

/// What the foot and head of the sheet say.
struct BoardTitle {
    std::string title;
    std::string part;   ///< "test piece of 90 x 90 mm, laid from sea"
    std::string light;  ///< "under all lamps, 310 lx"
    std::string aim;    ///< empty = none
    std::string layout_file;
    std::string program;
    bool whole = false;       ///< cells show variants of the whole panel
    bool by_row = false;      ///< rows are exposed each for its own light
    bool same_pieces = true;  ///< all cells are one laying
};
BoardTitle title_of(const Board& board, const BoardPlan& plan, const std::string& layout_file,
                    const std::string& program);

BoardSheet make_board_sheet(const Board& board, const BoardPlan& plan, const BoardTitle& title);

/// The sheet of pictures in pixels. A cell that is as large on it as it was rendered is there pixel by pixel.
Print print_board(const BoardSheet& sheet, const Board& board);

/// The sheet of figures in pixels.
Print print_figures(const BoardSheet& sheet);

}  // namespace rakelight
