// Reading of the section `board` of a layout file.
#pragma once

#include "output/board/board.h"
#include "scene/text/yaml_reader.h"

namespace rakelight {

struct Layout;

/// The plan that a section asks for, checked against its layout; problems go where the section's go.
BoardPlan read_board(Section& in, const Layout& layout);

}  // namespace rakelight
