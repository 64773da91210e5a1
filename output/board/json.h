// A sample board for machines, and for a page that lays cells over one another: board.json.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "output/board/sheet.h"

namespace rakelight {

/// What belongs to a board as files: names without folders.
struct BoardFiles {
    std::string sheet;               ///< of pictures
    std::string figures;             ///< the other one
    std::vector<std::string> cells;  ///< bare pictures, in their order
    std::uint64_t scene_hash = 0;
};

/// JSON text; "version" grows when a key changes its meaning. No times: the same board gives the same text.
std::string board_json(const Board& board, const BoardPlan& plan, const BoardSheet& sheet,
                       const BoardTitle& title, const BoardFiles& files);

}  // namespace rakelight
