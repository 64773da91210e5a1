// Pieces that lie in one another's ground: only one of them can be set.
#pragma once

#include <string>
#include <vector>

#include "scene/geometry/region.h"

namespace rakelight {

struct Overlap {
    std::size_t first = 0;  ///< indices of the two outlines, first < second
    std::size_t second = 0;
    double area_mm2 = 0;
    glm::dvec2 at_mm{};  ///< the middle of what they share
};

/// Every pair of outlines that share ground more than `tolerance_mm` deep (twice as far as a disc of half
/// that size reaches), by first, then second. Near n log n for outlines of like size.
std::vector<Overlap> overlaps(const std::vector<const Ring*>& outlines, double tolerance_mm);

}  // namespace rakelight
