// Skirting: a board along the foot of every wall, its upper edge eased, left out where doors are and behind a
// panel that hangs down to it.
#pragma once

#include <vector>

#include "scene/geometry/mesh.h"
#include "scene/room/room_face.h"

namespace rakelight {

struct Layout;

inline constexpr double kSkirtingDeep_mm = 15;

/// Lengths of skirting `high_mm` high along a wall, in the coordinates of the wall.
std::vector<FaceArea> skirting_of(const Layout& layout, RoomFace wall, double high_mm);

/// All of it, in room coordinates.
std::vector<Mesh> skirting_meshes(const Layout& layout, double high_mm);

}  // namespace rakelight
