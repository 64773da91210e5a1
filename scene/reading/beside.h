// Reading of the panel that hangs beside this one, from a layout file of its own.
#pragma once

#include <filesystem>
#include <functional>

#include "scene/model/layout.h"
#include "scene/text/yaml_reader.h"

namespace rakelight {

/// Reads `beside:` and, by `read`, the layout it names; what is wrong there is reported too. What the other
/// file says of a room, views and a panel beside is not used: two files may name each other.
void read_beside(Section& file, Layout& layout,
                 const std::function<Layout(const std::filesystem::path&)>& read);

/// Reports a panel beside that does not fit the wall. Needs the room.
void check_beside(Section& file, const Layout& layout);

/// Adds the lamps of the panel beside to those that are read if `lamps: lit` asks for them: before that panel
/// as in its own file, as high above the floor, aimed as far from its centre; named "NAME beside", groups
/// alike. Reports one that cannot be where it would hang.
void light_beside(Section& file, Layout& layout);

}  // namespace rakelight
