// Doors: a closed leaf of four panels between architraves, made up of plain boards. Sizes are common practice
// (a leaf of about 830 x 2030 mm), no published source.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "scene/geometry/mesh.h"
#include "scene/room/room_face.h"

namespace rakelight {

struct Layout;

/// What is in place of skirting and furniture: leaf and architraves, in the coordinates of the wall.
FaceArea door_area(const Door& door);

/// The parts of a door in room coordinates.
struct DoorParts {
    Mesh leaf, frame, handle;
};
DoorParts door_parts(const Room& room, const Door& door);

/// What keeps a door from its place: outside its wall, over a window, a panel or another door. "found X,
/// expected Y", or empty. `before`: doors that have their places already.
std::string why_no_door(const Door& door, const Layout& layout, std::span<const Door> before);

}  // namespace rakelight
