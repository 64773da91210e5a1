// Shapes side by side on slabs of one material: in rows, the highest first (next-fit decreasing height:
// Coffman, Garey, Johnson, Tarjan 1980, "Performance Bounds for Level-Oriented Two-Dimensional Packing
// Algorithms"). None is turned, so that veins run as on the panel.
#pragma once

#include <string>
#include <vector>

#include "output/cut/shapes.h"

namespace rakelight {

struct PlacedShape {
    std::size_t shape = 0;  ///< index in the list that was spread
    glm::dvec2 shift_mm{};  ///< from panel to slab coordinates (origin at the slab's lower left corner, y up)
};

struct CutSlab {
    std::uint32_t material = 0;
    double thickness_mm = 0;
    std::vector<PlacedShape> shapes;
};

/// Slabs of each material and thickness in turn. No two paths, and no path and the slab's edge, come nearer
/// than `apart_mm`. \throws RequestError naming the first shape that no slab holds.
std::vector<CutSlab> spread_on_slabs(const std::vector<CutShape>& shapes, const glm::dvec2& slab_mm,
                                     double apart_mm);

}  // namespace rakelight
