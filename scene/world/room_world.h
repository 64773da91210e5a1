// The room round the panels in a world: walls, floor, ceiling and what is fixed to them or stands there.
#pragma once

#include <glm/glm.hpp>
#include <vector>

#include "scene/world/surface_cache.h"

namespace rakelight {

struct Layout;

/// Adds walls, floor, ceiling, skirting, doors, bars of windows and furniture. A picture all round stands for
/// all of the room but the wall of the panel, bars and furniture.
void add_room(World& world, const Layout& layout, SurfaceCache& cache);

/// A box of the frames and glazing bars of windows, in room coordinates.
struct WindowBar {
    glm::dvec3 from_mm, to_mm;
    std::uint32_t material;
    friend bool operator==(const WindowBar&, const WindowBar&) = default;
};

/// Of the windows of the light that is on.
std::vector<WindowBar> window_bars_of(const Layout& layout);

}  // namespace rakelight
