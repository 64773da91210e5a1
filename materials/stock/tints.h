// The built-in tints of grout and bed: cement by the name of the colour ("charcoal"), epoxy with the same
// pigment by "epoxy-" and the name. Invented to be plausible, none measured. Colours are cured, dry and
// unsealed.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "materials/optics/material.h"

namespace rakelight {

/// Null when there is no such tint.
const Material* find_tint(std::string_view name);

/// Cements first, then epoxies.
std::vector<std::string> tint_names();

}  // namespace rakelight
