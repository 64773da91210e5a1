// Where windows and furniture cannot be.
#pragma once

#include <glm/glm.hpp>
#include <span>
#include <string>

#include "scene/model/room.h"
#include "scene/model/window.h"

namespace rakelight {

struct Layout;

/// What keeps a window from its place: outside its wall, over another window, or behind a panel; furniture
/// may stand before it. "found X, expected Y", or empty. Needs room and panel; `before`: the windows that
/// have their places already.
std::string why_no_window(const Window& window, const Layout& layout, std::span<const Window> before);

/// What keeps a box from its place: outside the room, or in a panel. The same words.
std::string why_no_furniture(const Furniture& box, const Layout& layout);

/// Lowest and highest corner of a box.
struct Corners {
    glm::dvec3 low_mm{};
    glm::dvec3 high_mm{};
};
Corners corners_of(const Furniture& box);

}  // namespace rakelight
