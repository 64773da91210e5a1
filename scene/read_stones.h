// Reading of the stones set by hand.
#pragma once

#include "scene/layout.h"
#include "scene/read_stock.h"
#include "scene/yaml_reader.h"

namespace rakelight {

/// Reads `stones:`, which may be absent. Needs the panel.
void read_stones(Section& file, Layout& layout, const Shelf& stock);

}  // namespace rakelight
