// A drawn shape as pieces that can be cut. Glass breaks along lines that run through: a ring, or a shape with
// a deep hollow, cannot be cut by hand in one piece, so a cutter parts it where it is narrowest and sets the
// parts with a hairline between them. (A jet of water could cut it whole; the parts still look as drawn.)
#pragma once

#include <vector>

#include "scene/geometry/region.h"

namespace rakelight {

/// Parts `region` into simple counter-clockwise rings, each seen whole from one point within, by slits of
/// `joint_mm` > 0 across its necks: the line that is shortest against the outline it cuts off, as in the
/// short-cut rule (Singh, Seyranian, Hoffman, "Parsing silhouettes", Perception & Psychophysics 61, 1999).
/// Parts narrower than `least_width_mm` (4 area / perimeter) are left to the joint.
std::vector<Ring> star_parts(const Region& region, double joint_mm, double least_width_mm);

}  // namespace rakelight
