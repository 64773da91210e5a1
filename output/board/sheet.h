// A sample board on one sheet: the cells side by side on a neutral grey surround, under each what it is and
// what it says in figures, with patches of its colours. Pixels of cells are pixels of the sheet.
#pragma once

#include <string>
#include <vector>

#include "output/board/render.h"
#include "output/paper/page.h"

namespace rakelight {

inline constexpr double kBoard_px_per_mm = 10;  ///< 254 dots an inch

/// A patch of one colour on the sheet.
struct BoardPatch {
    std::size_t cell = 0;
    std::string what;  ///< "joint", "pieces" or "mean"
    Lab lab;
    bool in_srgb = true;  ///< else drawn less vivid
    PageBox box;
};

struct BoardSheet {
    Page page;
    std::vector<PageBox> cells;  ///< where their pictures go, in their order
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

/// The sheet in pixels, cells included.
Print print_board(const BoardSheet& sheet, const Board& board);

}  // namespace rakelight
