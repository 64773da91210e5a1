// What a list says of a laid piece beyond how it is laid: where its middle is, how large, how heavy.
#pragma once

#include <vector>

#include "materials/optics/material.h"
#include "scene/model/piece.h"

namespace rakelight {

struct PieceFacts {
    glm::dvec2 centre_mm{};  ///< centroid of the outline; of a stone, where it was set
    double length_mm = 0;    ///< over all, along the row
    double width_mm = 0;     ///< over all, across it
    double area_mm2 = 0;     ///< of the outline; of a stone, of its footprint
    double mass_g = 0;       ///< from the volume of its mesh and the density of its material
};

/// One a piece, in order, then one a stone.
std::vector<PieceFacts> piece_facts(const std::vector<Material>& stock, const Laying& laying);

}  // namespace rakelight
