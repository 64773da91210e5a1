// Thin pieces flush with thick ones: all faces lie in one plane, so that the bed fills what is between. Said
// while it can still be designed away.
#pragma once

#include <string>
#include <vector>

#include "scene/laying/laying.h"

namespace rakelight {

struct Layout;

/// Thicker than this a bed is a weight of its own, shrinks and takes long to cure; 2 to 3 mm are usual, and
/// the take-off names whatever is over 5. Common practice, no published source.
inline constexpr double kFarTooThick_mm = 10;

/// At most one line, at the field with the thickest bed: how thick, how heavy, under which fields, what would
/// help.
std::vector<std::string> thick_bed_warnings(const Layout& layout, const Laying& laying);

}  // namespace rakelight
