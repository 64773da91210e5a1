// What surfaces look like, whatever the light: one colour each, for filters that know what was seen.
#pragma once

#include <glm/glm.hpp>
#include <span>
#include <vector>

#include "materials/optics/surface.h"

namespace rakelight {

/// XYZ of what the base of each surface reflects of even light (CIE illuminant E, a perfect white is Y = 1),
/// seen head-on; of leaf with its metal.
std::vector<glm::vec3> surface_colours(std::span<const Surface> surfaces);

}  // namespace rakelight
