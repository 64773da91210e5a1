// What lies between the pieces: grout, or the bed squeezed up where joints are left open. One sheet over the
// panel's plan, hollow between the pieces as a wet finger leaves it, left out where it would be hidden under
// them.
#pragma once

#include <cstdint>
#include <vector>

#include "scene/geometry/mesh.h"
#include "scene/model/piece.h"

namespace rakelight {

struct Layout;

struct JointSurface {
    Mesh mesh;
    std::vector<std::uint32_t> triangle_tint;  ///< index in Layout::tints, one a triangle
};

/// The surface, with a skirt down to the substrate along the edges of each panel. A joint between two fields
/// is wholly of the one listed first (the figure), so that the change of tint runs along its far side. Depth
/// below the pieces beside it: what the field's `fill` leaves of the thinnest piece; else the field's recess;
/// where joints are open, down to a third of the piece's thickness. `finest_mm`: what is smaller need not be
/// told.
JointSurface form_joints(const Layout& layout, const Laying& laying, double finest_mm = 0);

/// The triangles of one tint with the vertices they need.
Mesh part_of(const JointSurface& joints, std::uint32_t tint);

}  // namespace rakelight
