// The room as plain values. Room coordinates: origin on the floor at the foot of the wall, below the panel's
// centre, x right (seen by the viewer), y up, z out of the wall into the room, millimetres.
#pragma once

#include <cstdint>
#include <glm/glm.hpp>
#include <optional>
#include <string>
#include <vector>

namespace rakelight {

/// The sides of the room, seen by the viewer who faces the panel; `opposite` lies behind the viewer.
enum class RoomFace { left, right, opposite, panel, ceiling };

/// What stands out of the plane of the walls (wall_finish.h).
enum class WallFinish { smooth, stippled, brick, concrete, panelling };

/// A plain box, or a piece of joinery that fills the box of its size.
enum class FurnitureForm { box, bench, table, chair };

/// What stands in the room.
struct Furniture {
    std::string name;
    FurnitureForm form = FurnitureForm::box;
    glm::dvec3 at_mm{};                 ///< middle of its underside
    glm::dvec3 size_mm{500, 500, 500};  ///< along x, up, along z
    std::uint32_t material = 0;         ///< index in `Layout::stock`
};

/// A closed door in a wall.
struct Door {
    std::string name;
    RoomFace wall = RoomFace::panel;
    double at_mm = 0;               ///< of its middle along the wall: z on the side walls, x on the others
    glm::dvec2 size_mm{830, 2030};  ///< of the leaf
    std::uint32_t leaf = 0;         ///< indices in `Layout::stock`
    std::uint32_t handle = 0;
};

/// A box room. The panel hangs on the wall z = 0. What is none is as usual in pictures of the place
/// (usual_furnishing.h) and left out elsewhere.
struct Room {
    double width_mm = 5000;
    double depth_mm = 6000;
    double height_mm = 3000;
    std::uint32_t wall = 0;  ///< indices in `Layout::stock`; the paint of walls that have none of their own
    std::uint32_t left_wall = 0, right_wall = 0, opposite_wall = 0, panel_wall = 0;
    WallFinish wall_finish = WallFinish::smooth;
    std::uint32_t floor = 0, ceiling = 0;
    std::optional<double> board_mm;        ///< width of the floor's boards; 0 = laid without boards
    std::optional<double> skirting_mm;     ///< height; 0 = no skirting
    std::optional<std::uint32_t> joinery;  ///< of skirting and the frames of doors; there if there are any
    std::vector<Door> doors;
    bool doors_said = false;  ///< the layout lists its doors, if only as none
    std::vector<Furniture> furniture;
    bool furniture_said = false;  ///< the same of furniture
};

}  // namespace rakelight
