// A layout in a few lines of plain text, to look over before anything is rendered.
#pragma once

#include <string>

namespace rakelight {

struct Layout;

/// Panel, fields, stones, materials, room, lamps, viewpoints and pictures; every line ends with a newline.
/// Numbers are those of the layout, with what it left to defaults filled in.
std::string summarise(const Layout& layout);

}  // namespace rakelight
