// Faces turned on purpose, towards a lamp, a viewer, or halfway between the two where a face throws the lamp
// into the eye: gold and mirror pieces are set to catch the light in this way.
#pragma once

#include <glm/glm.hpp>

#include "scene/model/setting.h"

namespace rakelight {

struct Layout;

/// Unit vector in panel axes from a place on the panel towards what a field leans to. (0, 0, 1) where that
/// lies in the place itself.
glm::dvec3 toward(const Layout& layout, const Lean& lean, const glm::dvec3& panel_mm);

/// Slopes along x and y, as angles, of a face whose normal is turned from (0, 0, 1) towards `direction` by
/// `turn_deg`, but not beyond it, nor beyond 45 degrees.
glm::dvec2 turned_face_rad(const glm::dvec3& direction, double turn_deg);

}  // namespace rakelight
