// Reading of the panel that hangs beside this one, from a layout file of its own.
#pragma once

#include <filesystem>
#include <functional>

#include "scene/model/layout.h"
#include "scene/text/yaml_reader.h"

namespace rakelight {

/// Reads `beside:` and, by `read`, the layout it names; what is wrong there is reported too. What the other
/// file says of a room, lamps, views and a panel beside is not used: two files may name each other.
void read_beside(Section& file, Layout& layout,
                 const std::function<Layout(const std::filesystem::path&)>& read);

/// Reports a panel beside that does not fit the wall. Needs the room.
void check_beside(Section& file, const Layout& layout);

}  // namespace rakelight
