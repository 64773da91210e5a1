// What shows within a piece, as a layout file writes it: `streaks: {of: opal, share: 20 %}`, `seeds: {size:
// 0.8 mm, per cm2: 4}`.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "materials/optics/material.h"
#include "scene/text/yaml_reader.h"

namespace rakelight {

/// Where second colours are looked up.
struct ColourShelf {
    std::function<const Material*(std::string_view)> find;
    const std::vector<std::string>& names;  ///< for suggestions
};

/// Reads `streaks`, `wisps`, `veins`, `crackle`, `seeds`, `cords`, `veil` and `face`; what is given replaces
/// what the material had of it.
void read_markings(Section& in, Material& material, const ColourShelf& shelf);

/// Reads `sand`, `meniscus` and `mottling` of a tint.
void read_spread(Section& in, Markings& markings);

}  // namespace rakelight
