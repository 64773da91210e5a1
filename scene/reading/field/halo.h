// The halo of a field: how many rows follow edges before all others, and which edges.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "scene/model/field.h"
#include "scene/text/yaml_reader.h"

namespace rakelight {

/// The names of all fields of a file, as far as they are names.
std::vector<std::string> names_of_fields(Section& file);

/// Reads `halo`. `names`: of all fields; what `round` says is one of them, but not the field itself.
void read_halo(Section& in, Field& field, std::span<const std::string> names);

}  // namespace rakelight
