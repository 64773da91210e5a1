// Pieces and stones in three dimensions.
#pragma once

#include "materials/optics/material.h"
#include "scene/geometry/mesh.h"
#include "scene/model/piece.h"

namespace rakelight {

/// A closed mesh of the piece, from its face down to its back at `top_mm - thickness_mm`, nowhere outside its
/// outline. Normals are those of the curved surface itself, not averages of triangles; the back's edge is a
/// crease. `finest_mm`: what is smaller need not be told, as wide as a pixel sees; 0 = all. Precondition: all
/// of the outline can be seen from one point within (as of every piece that `lay` cuts).
Mesh form_piece(const Piece& piece, const Material& material, double finest_mm = 0);

/// A closed mesh of a placed stone, its highest point at `top_mm`: at least 20,000 triangles, but with
/// `finest_mm` none with sides that are shorter than half of that.
Mesh form_stone(const SetStone& stone, const Material& material, double finest_mm = 0);

}  // namespace rakelight
