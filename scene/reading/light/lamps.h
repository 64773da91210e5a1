// Reading of the lamps.
#pragma once

#include "scene/text/yaml_reader.h"

namespace rakelight {

struct Layout;

/// Reads `lamps:`; the usual ones are added when the key is absent. Needs everything that stands in the room.
void read_lamps(Section& file, Layout& layout);

}  // namespace rakelight
