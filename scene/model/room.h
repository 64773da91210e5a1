// The room as plain values. Room coordinates: origin on the floor at the foot of the wall, below the panel's
// centre, x right (seen by the viewer), y up, z out of the wall into the room, millimetres.
#pragma once

#include <cstdint>
#include <glm/glm.hpp>
#include <string>
#include <vector>

namespace rakelight {

/// The sides of the room, seen by the viewer who faces the panel; `opposite` lies behind the viewer.
enum class RoomFace { left, right, opposite, panel, ceiling };

/// A box that stands in the room.
struct Furniture {
    std::string name;
    glm::dvec3 at_mm{};                 ///< middle of its underside
    glm::dvec3 size_mm{500, 500, 500};  ///< along x, up, along z
    std::uint32_t material = 0;         ///< index in `Layout::stock`
};

/// A box room. The panel hangs on the wall z = 0.
struct Room {
    double width_mm = 5000;
    double depth_mm = 6000;
    double height_mm = 3000;
    std::uint32_t wall = 0;  ///< indices in `Layout::stock`; the paint of walls that have none of their own
    std::uint32_t left_wall = 0, right_wall = 0, opposite_wall = 0, panel_wall = 0;
    std::uint32_t floor = 0, ceiling = 0;
    std::vector<Furniture> furniture;
};

/// lamp_forms.h says of each what it takes and what its sizes mean, in the same order.

}  // namespace rakelight
