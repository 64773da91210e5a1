// Where in the room a lamp or an eye cannot be.
#pragma once

#include <glm/glm.hpp>
#include <string>

#include "scene/room/hung_panel.h"

namespace rakelight {

struct Layout;

/// What keeps a point (room coordinates) from being free: behind the wall, outside the room, in a piece of
/// furniture, or inside a hung panel (its substrate, bed, pieces and stones, and a hanging gap behind it).
/// "found X, expected Y", or empty when the point is free. Needs panel, room, fields and stones.
std::string why_not_free(glm::dvec3 point_mm, const Layout& layout);

/// How far a panel reaches into the room.
double reach_mm(const HungPanel& panel);

}  // namespace rakelight
