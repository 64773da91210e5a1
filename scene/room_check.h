// Where in the room a lamp or an eye cannot be.
#pragma once

#include <glm/glm.hpp>
#include <string>

#include "scene/layout.h"

namespace rakelight {

/// What keeps a point (room coordinates) from being free: behind the wall, outside the room, or inside the
/// hung panel (its substrate, bed, pieces and stones, and a hanging gap behind it). "found X, expected Y", or
/// empty when the point is free. Needs panel, room, fields and stones.
std::string why_not_free(glm::dvec3 point_mm, const Layout& layout);

}  // namespace rakelight
