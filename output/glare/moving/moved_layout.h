// The layout file with things moved: its own text, with only the numbers changed that an arrangement changes,
// so that whoever wrote it finds their own words and comments again.
#pragma once

#include <filesystem>
#include <string>

#include "output/glare/moving/what_to_move.h"

namespace rakelight {

struct Layout;

/// The text of `layout.sources.path` with lamps, lean and height as in `how`. \throws RequestError when the
/// file does not say where a lamp is (one of a set-up that the program knows), or when the changed text would
/// not be read back as what was meant.
std::string moved_layout_text(const Layout& layout, const Arrangement& how);

/// \throws RequestError when a layout written to `to` would not find the files that it names: they are looked
/// for beside it.
void check_moved_path(const Layout& layout, const std::filesystem::path& to);

}  // namespace rakelight
