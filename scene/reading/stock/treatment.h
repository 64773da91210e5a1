// What is done to a material after it is made, as a layout file writes it: open pores, finishes, metal leaf.
#pragma once

#include <string>

#include "materials/optics/material.h"
#include "scene/text/yaml_reader.h"

namespace rakelight {

/// Reads `pores` (a share), `finish` (a word, or a list of them, the first goes on first), `leaf` with `leaf
/// depth` and `leaf roughness`. `gilding`: whether leaf is allowed; if not its keys are unknown.
void read_treatment(Section& in, Material& material, bool gilding);

/// Reads `finish` alone. \return its words, parted by "and"; empty when it is absent.
std::string read_finishes(Section& in, Material& material);

}  // namespace rakelight
