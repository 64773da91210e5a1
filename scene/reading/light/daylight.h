// Reading of the light outside.
#pragma once

#include "scene/text/yaml_reader.h"

namespace rakelight {

struct Layout;

/// Reads `daylight:`: sky, and date, time and latitude or what is stated in lux. Needs the room with its
/// windows.
void read_daylight(Section& file, Layout& layout);

}  // namespace rakelight
