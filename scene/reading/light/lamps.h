// Reading of the lamps.
#pragma once

#include "scene/model/layout.h"
#include "scene/text/yaml_reader.h"

namespace rakelight {

/// Reads `lamps:`; the usual ones are added when the key is absent. Needs everything that stands in the room.
void read_lamps(Section& file, Layout& layout);

}  // namespace rakelight
