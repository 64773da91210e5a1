// A triangle mesh with a shading normal at every vertex.
#pragma once

#include <cstdint>
#include <glm/glm.hpp>
#include <vector>

namespace rakelight {

/// Positions in millimetres; triangles wind counter-clockwise seen from outside. `normals` are of unit
/// length, one per position; a crease repeats the position with another normal.
struct Mesh {
    std::vector<glm::vec3> positions_mm;
    std::vector<glm::vec3> normals;
    std::vector<glm::uvec3> triangles;
    std::vector<float> edge_mm;  ///< of a piece: distance from its outline, one per position; or empty
};

}  // namespace rakelight
