// Glass by recipe, as a layout file writes it: a fused stack of sheets, and a ladder of shades.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "materials/optics/material.h"
#include "scene/text/yaml_reader.h"

namespace rakelight {

/// What recipes draw on.
struct GlassShelf {
    std::function<const Material*(std::string_view)> find;
    const std::vector<std::string>& names;  ///< for suggestions
};

/// Reads `stack: [{glass: deep-teal, thickness: 3}, ...]`, face first, and `firing`. Its thickness is what
/// the kiln leaves; a `thickness` beside it is refused. \return none when anything was wrong.
std::optional<Material> read_stack(Section& in, const GlassShelf& shelf);

/// Reads `ladder: {from: deep-teal, to: aqua, steps: 5}`: shades named after `name` with -1 to -steps. Other
/// keys of the entry are refused. Nothing when anything was wrong.
std::vector<Material> read_ladder(Section& in, const std::string& name, const GlassShelf& shelf);

}  // namespace rakelight
