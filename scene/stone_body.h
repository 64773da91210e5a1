// The body of a placed stone: a sphere of directions with a reach for each. Chunks are cut by planes and
// scooped by conchoidal breaks; pebbles are superellipsoids (Barr 1981); then come lumps, bubbles and grain.
#pragma once

#include "scene/laying.h"
#include "scene/mesh.h"

namespace rakelight {

/// Closed mesh of the stone in panel coordinates; `level`: each level has four times the triangles of the one
/// before, level 0 has 20. Normals average the triangles' own, weighted by area.
Mesh stone_body(const SetStone& stone, const Material& material, int level);

/// What the fields keep clear of: the convex outline of the stone above the ground where it meets them, a
/// little below `plane_mm`.
std::vector<glm::dvec2> stone_footprint(const SetStone& stone, const Material& material, double plane_mm);

}  // namespace rakelight
