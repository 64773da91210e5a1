// The edges that the rows of a field follow, where they are not those of its ground.
#pragma once

#include "scene/geometry/region.h"

namespace rakelight {

/// Empty regions: the ground's own edges. Else the ground lies within them.
struct Contours {
    Region halo;     ///< its edges are those that halo rows follow
    Region outline;  ///< its edges are those of the figure, as it goes on past the panel
};

}  // namespace rakelight
