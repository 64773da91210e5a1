// A sample board on a page: its cells in their grid, and any two of them laid over each other.
#pragma once

#include <filesystem>
#include <string>

namespace rakelight {

/// The figure, with all cells in it. `board` is a board.json whose cells lie beside it. \throws RequestError
/// when it has no cells or one cannot be read.
std::string web_board(const std::filesystem::path& board, const std::string& id);

}  // namespace rakelight
