// Mass properties of closed meshes: how much of one lies below a level, and where its weight is. Divergence
// theorem, one tetrahedron a triangle (Mirtich 1996, "Fast and accurate computation of polyhedral mass
// properties").
#pragma once

#include "scene/geometry/mesh.h"

namespace rakelight {

struct SolidMeasure {
    double volume_mm3 = 0;
    glm::dvec3 centre_mm{0};  ///< of gravity; the origin when there is no volume
};

/// Of a closed mesh whose triangles wind outward.
SolidMeasure measure_solid(const Mesh& mesh);

/// Volume enclosed by a closed mesh; positive when its triangles wind outward.
inline double volume_mm3(const Mesh& mesh) {
    return measure_solid(mesh).volume_mm3;
}

/// Volume of the part below the level plane z = `level_mm`.
double volume_below_mm3(const Mesh& mesh, double level_mm);

}  // namespace rakelight
