// From the nodes of the joint surface to its triangles, cut where the seam between two tints runs.
#pragma once

#include <span>
#include <vector>

#include "scene/forms/joint_surface.h"
#include "scene/forms/joint_tint.h"

namespace rakelight {

struct Layout;

struct JointNodes {
    Lattice lattice;
    std::span<const NearFields> fields;  ///< one a node, owners settled
    std::vector<glm::vec3> at_mm;        ///< one a node
    std::vector<float> edge_mm;          ///< one a node: distance from the pieces, below 0 under one
    std::vector<char> hidden;            ///< one a node: nobody sees it; four such make no triangles
    std::vector<std::uint32_t> tint_of_field;
};

/// The sheet over all nodes and its skirt along the lattice's edges.
JointSurface weave_joints(const Layout& layout, const JointNodes& nodes);

}  // namespace rakelight
