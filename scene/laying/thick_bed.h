// Thin pieces flush with thick ones: all faces lie in one plane, so that the bed fills what is between. Said
// while it can still be designed away.
#pragma once

#include <string>
#include <vector>

#include "scene/laying/laying.h"

namespace rakelight {

struct Layout;

/// Thicker than this a bed is a weight of its own, shrinks and takes long to cure; 2 to 3 mm are usual.
/// Common practice, no published source.
inline constexpr double kThickBed_mm = 5;

/// One line for each field whose pieces lie on so thick a bed: how thick, how heavy, what would help.
std::vector<std::string> thick_bed_warnings(const Layout& layout, const Laying& laying);

}  // namespace rakelight
