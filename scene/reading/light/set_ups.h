// Reading of `set-ups` and `light`: the ways in which a layout's room is lit.
#pragma once

#include <string>

#include "scene/model/lighting.h"
#include "scene/reading/stock/stock.h"
#include "scene/text/yaml_reader.h"

namespace rakelight {

struct Layout;

/// More set-ups than this in one file are refused.
inline constexpr std::size_t kMostSetUps = 100;

/// Keeps what has been read of lamps, windows and daylight as the layout's own light, reads the set-ups that
/// the file defines (each key of theirs replaces that of the room), then which of all it is shown in, and
/// puts the first of them on. Needs everything that stands in the room.
void read_set_ups(Section& file, Layout& layout, const Shelf& stock);

/// A set-up by its name, added to the layout when it is one known to the program. Reports an unknown name,
/// and a known set-up that does not fit into the room, at `value`. \return null for these.
const Lighting* use_set_up(const YamlValue& value, const std::string& key, Layout& layout,
                           ProblemList& problems);

}  // namespace rakelight
