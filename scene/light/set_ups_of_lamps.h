// Set-ups of lamps alone: the room as it is at night. Angles and levels are those of display practice: spots
// 30 degrees from the vertical (Canadian Conservation Institute, Notes 2/3), 45 degrees its outer limit,
// raking light 5 to 15 degrees to the surface from 150 to 300 mm out, wall-washers a third to a half of the
// wall's height out, accent to general light 3:1 to 5:1. What has no source here is common practice, no
// published source.
#pragma once

#include "scene/model/lighting.h"

namespace rakelight {

struct Layout;

/// All of them: made to measure from the room and all that hangs there, positions in room millimetres; only
/// `lamps` is filled in. Panels side by side are lit as one work, but for spots and light that rakes from
/// above, which are one lamp a panel. The light of a named level falls on the middle of the face. A spot at
/// the ceiling for 250 lx, and general light for 25 lx.
Lighting gallery_spot(const Layout& layout);
/// Two lamps at the height of the panel, as far aside as out, for 200 lx each.
Lighting pair_at_45(const Layout& layout);
/// A wall-washer at the ceiling for 250 lx.
Lighting wash(const Layout& layout);
/// A spot for 200 lx close to the wall above, or on the left: 10 degrees to the faces where the room and the
/// panel allow.
Lighting rake_from_top(const Layout& layout);
Lighting rake_from_side(const Layout& layout);
/// A table lamp of 450 lm to the right of the panel.
Lighting evening_lamp(const Layout& layout);

}  // namespace rakelight
