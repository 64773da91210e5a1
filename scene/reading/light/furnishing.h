// Reading of what is in the room besides the panel: windows and furniture.
#pragma once

#include "scene/reading/stock/stock.h"
#include "scene/text/yaml_reader.h"

namespace rakelight {

struct Layout;

/// Reads `windows:` and `furniture:` of the room and checks that they fit it. Needs the room's size and what
/// hangs on its wall.
void read_furnishing(Section& room, Layout& layout, const Shelf& stock);

/// Reads the name of a material that nothing shows through: it is lit from one side only. \return its index
/// in the layout's stock, 0 when it is bad, as reported.
std::uint32_t read_opaque(Section& in, std::string_view key, std::string_view usual, const Shelf& stock,
                          Layout& layout);

/// Reads `windows:` of the room or of a set-up of light in place of those there were, if the key is given.
void read_windows(Section& section, Layout& layout, const Shelf& stock);

}  // namespace rakelight
