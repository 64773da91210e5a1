// A sample board on a page: its cells in their grid, and any two of them laid over each other.
#pragma once

#include <filesystem>
#include <string>

#include "output/web/embedded_picture.h"

namespace rakelight {

/// The figure, with all cells in it. `board` is a board.json whose cells lie beside it. \throws RequestError
/// when it has no cells or one cannot be read. `older`: mark it (older.h), with this file's name; empty = it
/// is not.
std::string web_board(const std::filesystem::path& board, const std::string& id,
                      const PictureLimits& limits = {1000, 700'000}, const std::string& older_than = "");

}  // namespace rakelight
