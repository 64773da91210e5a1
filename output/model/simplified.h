// A mesh with fewer triangles: edges are collapsed where the shape changes least (Garland and Heckbert 1997,
// "Surface Simplification Using Quadric Error Metrics", as in meshoptimizer).
#pragma once

#include "scene/geometry/mesh.h"

namespace rakelight {

/// Every triangle stays within `detail_mm` of the mesh it stands for. Points that are left keep their
/// places and normals; a closed mesh stays closed, an open one keeps its edge within the same distance.
/// Triangles with two corners in one place are gone. 0 = as it is, but for those.
Mesh simplified(const Mesh& mesh, double detail_mm);

}  // namespace rakelight
