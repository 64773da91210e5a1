// Frame and glazing bars of a window: boxes that stand off the wall into the room, so that they are seen in
// the glass and cut the sun's patch.
#pragma once

#include <utility>
#include <vector>

#include "scene/model/room.h"
#include "scene/model/window.h"
#include "scene/room/room_face.h"

namespace rakelight {

/// Boxes in room coordinates, as their lowest and highest corners; none for a window without panes.
std::vector<std::pair<glm::dvec3, glm::dvec3>> window_bars(const Room& room, const Window& window);

/// What frame and bars leave open, 0..1.
double open_share(const Window& window);

/// Bars so wide that no glass is left.
bool bars_close(const Window& window);

}  // namespace rakelight
