// How a wall is made up: what stands out a few millimetres from its plane, cut round doors and windows.
// Sizes: bricks of 215 x 65 mm with joints of 10 mm (BS EN 771-1, the usual work size) in stretcher bond; the
// rest is common practice, no published source.
#pragma once

#include <string>
#include <vector>

#include "materials/markings/markings.h"
#include "scene/geometry/mesh.h"
#include "scene/room/room_face.h"

namespace rakelight {

struct Layout;

/// Words for them in layout files, in the order of `WallFinish`.
inline const std::vector<std::string> kWallFinishWords{"smooth", "stippled", "brick", "concrete",
                                                       "panelling"};

inline constexpr double kBrickLong_mm = 215, kBrickHigh_mm = 65, kBrickJoint_mm = 10;

/// The parts that stand out of a wall, in its coordinates: bricks; slabs between the joints of formwork;
/// stiles and rails. None of a smooth wall.
std::vector<FaceArea> wall_parts(const Layout& layout, RoomFace wall);

/// What its face shows close to, unless its material has markings of its own: the stipple of a paint roller
/// over slow waves of plaster; blowholes and the uneven colour of cast concrete. Common practice, no
/// published source.
Markings wall_markings(WallFinish finish);

/// How far they stand out, mm; less than the gap behind a hung panel.
double wall_relief_mm(WallFinish finish);

/// One of them in room coordinates, its edges eased.
Mesh wall_part_mesh(const Room& room, RoomFace wall, const FaceArea& part);

}  // namespace rakelight
