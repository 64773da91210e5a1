// Reading of the viewpoints, and of the pictures taken from them.
#pragma once

#include "scene/layout.h"
#include "scene/yaml_reader.h"

namespace rakelight {

/// Sides of a picture, pixels.
inline constexpr Range kPictureSide_px{16, 16384};

/// Reads `viewpoints:`; the usual one is added when there are none. Needs everything that stands in the room.
void read_viewpoints(Section& file, Layout& layout);

/// Reads `pictures:`; none are added when the key is absent. Needs viewpoints and lamps.
void read_pictures(Section& file, Layout& layout);

}  // namespace rakelight
