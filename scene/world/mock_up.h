// A layout's world with what a picture of the place needs beside the panel: objects that give scale, and the
// bodies of the lamps, so that it shows where fixtures would hang.
#pragma once

#include <span>

#include "scene/room/stand_in.h"
#include "scene/world/world.h"

namespace rakelight {

struct Layout;

struct MockUp {
    std::vector<StandInPlace> stand_ins;
    bool lamp_bodies = true;  ///< a housing behind each spot, hung from the ceiling
};

/// As `build_world`, with those added. Stand-ins are matte: the figure in clothes of a mid tone, seats oak.
World build_mock_up(const Layout& layout, const Laying& laying, const MockUp& mock_up);

}  // namespace rakelight
