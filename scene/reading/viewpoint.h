// Reading of where pictures are taken from.
#pragma once

#include "scene/text/yaml_reader.h"

namespace rakelight {

struct Layout;

/// Reads `viewpoints:`; a walk past becomes as many viewpoints as it has steps, called "NAME 1" and so on.
/// The usual one is added when there are none. Needs everything that stands in the room.
void read_viewpoints(Section& file, Layout& layout);

}  // namespace rakelight
