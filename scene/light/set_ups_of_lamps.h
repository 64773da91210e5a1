// Set-ups of lamps alone: the room as it is at night. Angles and levels are those of display practice: spots
// 30 degrees from the vertical (Canadian Conservation Institute, Notes 2/3), 45 degrees its outer limit,
// raking light 5 to 15 degrees to the surface from 150 to 300 mm out, wall-washers a third to a half of the
// wall's height out, accent to general light 3:1 to 5:1. What has no source here is common practice, no
// published source.
#pragma once

#include "scene/model/lighting.h"

namespace rakelight {

struct Layout;

/// See the table in known_set_ups.cpp for what each means. Measured for all that hangs there: spots and light
/// that rakes from above are one lamp a panel, the rest takes panels side by side as one work.
Lighting gallery_spot(const Layout& layout);
Lighting pair_at_45(const Layout& layout);
Lighting wash(const Layout& layout);
Lighting rake_from_top(const Layout& layout);
Lighting rake_from_side(const Layout& layout);
Lighting evening_lamp(const Layout& layout);

}  // namespace rakelight
