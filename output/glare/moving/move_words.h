// A change of lamps and hanging in words that somebody on a ladder can follow, and as the lines that it
// changes in the layout file.
#pragma once

#include <string>
#include <vector>

#include "output/glare/moving/what_to_move.h"
#include "scene/model/lighting.h"

namespace rakelight {

struct Layout;

/// One sentence for each thing that changes, lamps first. Left and right are those of a viewer who faces the
/// panel.
std::vector<std::string> advice_for(const Layout& present, const MoveChoice& choice,
                                    const MoveBounds& bounds);

/// The same in one short line: "ceiling lamp 2, lean".
std::string changes_in_short(const Layout& present, const MoveChoice& choice, const MoveBounds& bounds);

/// The values that the layout file then has, one a line: "room: lean: 4".
std::vector<std::string> keys_for(const Lighting& light, const MoveChoice& choice, const MoveBounds& bounds);

}  // namespace rakelight
