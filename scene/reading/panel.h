// Reading of the panel itself, its substrate and frame, and of the room it hangs in.
#pragma once

#include "scene/reading/stock/stock.h"
#include "scene/text/yaml_reader.h"

namespace rakelight {

struct Layout;

/// Reads `panel:`, which must be there with a size. A bad size leaves 0, which later checks skip.
void read_panel(Section& file, Layout& layout, const Shelf& stock);

/// Reads `room:` over the usual room, which is wide and high enough for the panel. Needs the panel.
void read_room(Section& file, Layout& layout, const Shelf& stock);

}  // namespace rakelight
