// Where along a changing mix a piece lies: by arc length, by distance or by direction (MixShift::By).
#pragma once

#include <glm/glm.hpp>
#include <span>
#include <vector>

#include "scene/model/field.h"

namespace rakelight {

/// One position a point, in the unit of `shift.by`. The sides of an open line part at its ends as its last
/// segments point; of a closed one the left side is the inside when it was drawn counter-clockwise. The sign
/// at a corner is that of the mean normal (Baerentzen and Aanaes, "Signed distance computation using the
/// angle weighted pseudonormal", IEEE TVCG 11(3), 2005). Precondition: the line has two different points.
std::vector<double> mix_positions(const MixShift& shift, std::span<const glm::dvec2> points_mm);

}  // namespace rakelight
