// The layout's key `pieces`: the file of a piece table that is taken instead of laying.
#pragma once

#include <filesystem>

#include "scene/reading/stock/stock.h"

namespace rakelight {

struct Layout;

/// Reads the table that `pieces` names (relative to the layout's folder), or `instead` when that is given,
/// into `Layout::piece_rows`, and takes its materials from the shelf. Files that end in .json are JSON, all
/// others CSV.
void read_piece_table(Section& file, Layout& layout, const Shelf& stock,
                      const std::filesystem::path& instead);

}  // namespace rakelight
