// Pieces and stones in three dimensions.
#pragma once

#include "materials/optics/material.h"
#include "scene/geometry/mesh.h"
#include "scene/model/piece.h"

namespace rakelight {

/// A closed mesh of the piece, from its face down to its back at `top_mm - thickness_mm`, nowhere outside its
/// outline. Normals are those of the curved surface itself, not averages of triangles; the back's edge is a
/// crease. Precondition: all of the outline can be seen from one point within (as of every piece that `lay`
/// cuts).
Mesh form_piece(const Piece& piece, const Material& material);

/// A closed mesh of a placed stone, at least 20,000 triangles, its highest point at `top_mm`.
Mesh form_stone(const SetStone& stone, const Material& material);

}  // namespace rakelight
