// One light of the room as a value.
#pragma once

#include <string>
#include <vector>

#include "scene/model/daylight.h"
#include "scene/model/lamp.h"
#include "scene/model/window.h"
#include "scene/text/place.h"

namespace rakelight {

/// Lamps, windows and daylight that belong together: one way to light the room.
struct Lighting {
    std::string name;  ///< empty or "own light": what the file says outside of any set-up
    std::vector<Lamp> lamps;
    std::vector<Window> windows;
    Daylight daylight;
    Place place;
};

}  // namespace rakelight
