// Areas and masses of parts as the columns of a list show them: cm² and grams, or with `units: inches` square
// inches and ounces. Ounce: a sixteenth of a pound (NIST Special Publication 811, 2008, appendix B.8).
#pragma once

#include <string>

#include "scene/text/shown_units.h"

namespace rakelight {

/// "cm²" or "sq in".
std::string area_unit(Units units);

/// A number of mm² in that unit, with so many decimals.
std::string shown_area(double mm2, Units units, int decimals = 0);

/// "g" or "oz".
std::string small_mass_unit(Units units);

/// A number of grams in that unit: whole grams, or ounces to a tenth.
std::string shown_small_mass(double g, Units units);

}  // namespace rakelight
