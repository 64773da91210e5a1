// A window of the room as plain values. Room coordinates (room.h).
#pragma once

#include <cstdint>
#include <glm/glm.hpp>
#include <optional>
#include <string>

#include "scene/model/room.h"

namespace rakelight {

enum class Curtain { none, sheer, blind };

/// An opening in a wall or in the ceiling.
struct Window {
    std::string name;
    std::string group;  ///< dimmed together with its lamps; defaults to the name
    RoomFace wall = RoomFace::left;
    /// In a wall: middle of the sill, along the wall (z on the side walls, x on the others) and up. In the
    /// ceiling: the middle, x and z.
    glm::dvec2 at_mm{};
    glm::dvec2 size_mm{1000, 1200};  ///< along, up (in the ceiling: x, z)
    Curtain curtain = Curtain::none;
    double transmittance = 0.8;  ///< of pane and curtain together, straight through; 1 = it stands open
    glm::ivec2 panes{0, 0};      ///< across and up, between bars; 0 = neither bars nor frame
    double bar_mm = 40;          ///< width of bars and frame
    std::optional<std::uint32_t> bar_material;  ///< index in `Layout::stock`; none = the usual one, found
                                                ///< when the light is put on (with_light.h)
    std::optional<double> lux;  ///< upright at the pane, outside, from sky and ground; none = by daylight
    double dimming = 1;
};

}  // namespace rakelight
