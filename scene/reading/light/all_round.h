// Reading of light all round: a picture in place of the room.
#pragma once

#include "scene/text/yaml_reader.h"

namespace rakelight {

struct Layout;

/// Reads `light all round:` of the layout or of a set-up. It takes the place of the windows there were; where
/// the same mapping lists windows as well, that is reported. A set-up that lists windows is without the
/// picture that the layout has. Needs the room with its windows.
void read_all_round(Section& file, Layout& layout);

}  // namespace rakelight
