// A slab drawn, for machines that read SVG and for the eye.
#pragma once

#include <string>

#include "output/cut/spread.h"
#include "output/paper/tracing.h"

namespace rakelight {

struct Layout;

/// Where the name of a shape stands on it, panel coordinates, and how high; 0 = it has no room for one.
struct NameOnPiece {
    glm::dvec2 at_mm{};
    double height_mm = 0;
};
NameOnPiece name_on(const CutShape& shape);

/// The slab at 1:1: layers `slab`, `cut` (a path a shape, its id the shape's name) and `names`.
Tracing slab_drawing(const CutSlab& slab, const std::vector<CutShape>& shapes, const glm::dvec2& slab_mm,
                     const std::string& title);

}  // namespace rakelight
