// Reading of the rows and columns of a sample board.
#pragma once

#include <string_view>
#include <vector>

#include "output/board/board.h"
#include "scene/text/yaml_reader.h"

namespace rakelight {

struct Layout;

/// Reads the choices under `key` ("rows" or "columns"): one word with a list, or a list of choices. Where
/// there are none, the one choice that changes nothing.
void read_choices(Section& board, std::string_view key, std::vector<BoardChoice>& choices,
                  const Layout& layout);

}  // namespace rakelight
