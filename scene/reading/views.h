// Reading of the pictures.
#pragma once

#include "scene/text/yaml_reader.h"

namespace rakelight {

struct Layout;

/// Reads `pictures:`; none are added when the key is absent. A picture of a walk past becomes one for each of
/// its steps, called "NAME 1" and so on. Needs viewpoints and set-ups of light.
void read_pictures(Section& file, Layout& layout);

}  // namespace rakelight
