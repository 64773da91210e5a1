// Set-ups that need a window: the room's own where it has fitting ones, otherwise one made for the purpose.
// Levels follow from sky and sun (daylight_level.h). Common practice, no published source.
#pragma once

#include <glm/glm.hpp>

#include "scene/model/daylight.h"
#include "scene/model/lighting.h"

namespace rakelight {

struct Layout;

/// See the table in known_set_ups.cpp for what each means; made to measure from the layout's panel and room.
/// An overcast sky.
Lighting north_light(const Layout& layout);
/// Low sun through a side window.
Lighting sun_patch(const Layout& layout);
/// Twilight in the windows, and lamplight.
Lighting dusk(const Layout& layout);
/// A window opposite the panel and no lamp.
Lighting window_behind(const Layout& layout);

/// A clear sky on the day of the spring equinox at 45 degrees north, with the sun where it shines from
/// `to_sun` (a direction of the room, unit): the hour of the afternoon follows from its height, and where
/// the panel faces from its side. Heights over 44 degrees are taken as 44; below the horizon is twilight.
Daylight daylight_from(const glm::dvec3& to_sun);

}  // namespace rakelight
