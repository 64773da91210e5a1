// A model as one binary glTF 2.0 file (ISO/IEC 12113:2022), in metres.
#pragma once

#include <string>

#include "output/film/json_head.h"
#include "output/model/parts.h"

namespace rakelight {

/// The bytes of a .glb: a scene with one node for the panel, whose children are those of the model. Axes as
/// glTF has them: x right as one faces the panel, y up, z out of the wall; the origin is the middle of the
/// panel's back. Normals are of unit length, colours linear sRGB, indices of two bytes where they suffice.
std::string model_glb(const Model& model, const MadeFrom& from);

}  // namespace rakelight
