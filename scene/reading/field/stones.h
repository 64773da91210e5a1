// Reading of the stones set by hand.
#pragma once

#include "scene/reading/stock/stock.h"
#include "scene/text/yaml_reader.h"

namespace rakelight {

struct Layout;

/// Reads `stones:`, which may be absent. Needs the panel.
void read_stones(Section& file, Layout& layout, const Shelf& stock);

}  // namespace rakelight
