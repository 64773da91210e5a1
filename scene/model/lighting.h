// One light of the room as a value.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "scene/model/all_round_light.h"
#include "scene/model/daylight.h"
#include "scene/model/lamp.h"
#include "scene/model/window.h"
#include "scene/text/place.h"

namespace rakelight {

/// Lamps, windows and daylight, or a picture all round, that belong together: one way to light the room.
struct Lighting {
    std::string name;  ///< empty or "own light": what the file says outside of any set-up
    std::vector<Lamp> lamps;
    std::vector<Window> windows;
    Daylight daylight;
    std::optional<AllRoundLight> all_round;  ///< then there are no windows: no walls that they could be in
    Place place;
};

}  // namespace rakelight
