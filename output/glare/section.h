// What a layout file says of glare: its section `glare`, limits and what may be moved.
#pragma once

#include <filesystem>
#include <utility>
#include <vector>

#include "output/glare/measures/panel_glare.h"
#include "output/glare/moving/what_to_move.h"
#include "scene/text/yaml_reader.h"

namespace rakelight {

struct Layout;

struct GlareSection {
    GlareLimits limits;
    /// Names of fields whose contrast is reported; empty = all that lie side by side.
    std::vector<std::pair<std::string, std::string>> contrast;
    MoveBounds move;  ///< lean from 0 to 8 degrees unless told otherwise
};

/// Reads the section, or takes what is usual when the file has none. \throws LayoutError with all the
/// problems of it: unknown lamps and fields, tracks that leave the room, panels that would not fit.
GlareSection read_glare_section(const Layout& layout, const std::filesystem::path& file);

/// The same from text, for tests.
GlareSection read_glare_text(const Layout& layout, std::string_view text);

}  // namespace rakelight
