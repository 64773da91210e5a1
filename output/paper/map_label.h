// Where a number fits on a piece, and how large it can be written there.
#pragma once

#include "scene/geometry/region.h"

namespace rakelight {

struct LabelSpot {
    glm::dvec2 at_mm{};  ///< middle of the label
    double em_mm = 0;    ///< largest type; 0 = no room at all
};

/// The best of a few places for a level label of `width_em` by `height_em`, all of it within the ring.
LabelSpot label_spot(const Ring& ring, double width_em, double height_em);

}  // namespace rakelight
