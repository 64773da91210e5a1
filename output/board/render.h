// From the plan of a sample board to its finished cells. Cells share whatever they can: the laying, the world
// and its ray structure where pieces lie alike; the very light paths where only colours differ; one picture
// where only lamps or distances do.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "output/board/board.h"
#include "output/board/numbers.h"
#include "output/print/develop.h"
#include "scene/text/yaml_document.h"

namespace rakelight {

struct Layout;

struct BoardCell {
    std::size_t row = 0, column = 0;
    std::string label;
    std::string grout;    ///< name of the filling of the field, "none" where joints are open
    std::string filling;  ///< "cement", "resin" or "bed, open joints"
    double joint_mm = 0, recess_mm = 0;
    std::vector<std::string> lamps;  ///< as asked for; empty = all
    double illuminance_lx = 0;
    double ev100 = 0;  ///< the exposure of its row
    std::optional<double> distance_m;
    Print print;
    CellNumbers numbers;
};

/// How much was shared.
struct BoardWork {
    std::size_t layings = 0;     ///< and worlds
    std::size_t renderings = 0;  ///< sets of light paths
};

struct Board {
    std::vector<BoardCell> cells;  ///< row by row
    double ev100 = 0;              ///< of the reference cell
    Xyz white;                     ///< of the light that the reference cell is developed for, Y 1
    bool by_row = false;           ///< rows differ in light: each is exposed and developed for its own
    BoardWork work;
};

struct BoardOptions {
    bool share_paths = true;  ///< false: each cell is laid, built and traced for itself; for comparison
    std::function<void(double share)> progress;
    std::function<bool()> cancelled;
};

/// Renders a board. `tree`: of the layout file; `layout`: what it says.
/// \throws LayoutError for choices that cannot be laid, with all the problems; RequestError when no light
/// falls on the board; Cancelled.
Board render_board(const Layout& layout, const BoardPlan& plan, const BoardOptions& options = {});

}  // namespace rakelight
