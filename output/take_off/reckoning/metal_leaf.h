// Metal leaf for what is gilded: leaves and books of it, over the glass or stone that is bought. Leaf comes
// in books of 25 leaves of 80 mm; a fifth goes on overlaps, tears and what is skewed off. Common practice, no
// published source.
#pragma once

#include <vector>

#include "materials/optics/material.h"
#include "output/take_off/reckoning/purchase.h"

namespace rakelight {

inline constexpr double kLeafSide_mm = 80;
inline constexpr int kLeavesABook = 25;
inline constexpr double kLeafWaste = 0.20;  ///< of the area that is gilded

struct LeafNeed {
    Leaf leaf = Leaf::gold;
    std::vector<std::uint32_t> materials;  ///< indices in Layout::stock
    double gilded_mm2 = 0;                 ///< of what is bought: it is gilded before it is cut
    int leaves = 0;                        ///< with waste
    int books = 0;
};

/// One a metal that is laid.
std::vector<LeafNeed> leaf_needs(const std::vector<Material>& stock, const std::vector<Purchase>& purchases);

}  // namespace rakelight
