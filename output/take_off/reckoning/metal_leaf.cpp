#include "output/take_off/reckoning/metal_leaf.h"

#include <algorithm>
#include <cmath>

namespace rakelight {

std::vector<LeafNeed> leaf_needs(const std::vector<Material>& stock, const std::vector<Purchase>& purchases) {
    std::vector<LeafNeed> needs;
    for (const Purchase& p : purchases) {
        const Leaf leaf = stock[p.material].leaf;
        if (leaf == Leaf::none) continue;
        auto need = std::ranges::find(needs, leaf, &LeafNeed::leaf);
        if (need == needs.end()) need = needs.insert(needs.end(), LeafNeed{leaf, {}, 0, 0, 0});
        need->materials.push_back(p.material);
        need->gilded_mm2 += p.bought_mm2;
    }
    for (LeafNeed& need : needs) {
        const double leaves = need.gilded_mm2 * (1 + kLeafWaste) / (kLeafSide_mm * kLeafSide_mm);
        need.leaves = static_cast<int>(std::ceil(leaves - 1e-9));
        need.books = (need.leaves + kLeavesABook - 1) / kLeavesABook;
    }
    return needs;
}

}  // namespace rakelight
