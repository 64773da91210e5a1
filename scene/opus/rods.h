// Stones seen from above as rods with round ends: strewn without overlap, and parted from one another by
// straight lines midway between them. The cells are convex, as pebbles are, and do not quite cover the
// ground: what they leave are the pockets that small stones fill.
#pragma once

#include <cstdint>
#include <functional>
#include <vector>

#include "scene/geometry/region.h"

namespace rakelight {

struct Rod {
    glm::dvec2 at{0};
    glm::dvec2 along{1, 0};
    double half_length_mm = 0;  ///< from the middle to the middle of a round end
    double radius_mm = 1;
};

/// Sizes and directions of the stones to be strewn.
struct Strewing {
    double length_mm = 20;  ///< of a whole stone and one joint
    double width_mm = 14;
    double small = 0.5;    ///< size of the small ones, of that of the others
    double uneven = 0.15;  ///< sizes vary by this much either way
    std::function<glm::dvec2(const glm::dvec2& at, double unit_spread)> direction;
};

/// Rods over `ground`, large ones first, the small ones where no large one fits.
std::vector<Rod> strewn_rods(const Region& ground, const Strewing& wish, std::uint64_t seed);

/// One cell a rod, within `ground` and not much farther out than a stone of its size would reach; disjoint;
/// empty where a rod lies off the ground. Convex unless the ground's edge cuts in. `length_mm`: of the
/// longest.
std::vector<Ring> cells_of(const std::vector<Rod>& rods, const Region& ground, double length_mm);

/// Moves each rod towards the middle of its cell (Lloyd 1982), `rounds` times. \return the cells then.
std::vector<Ring> settle_rods(std::vector<Rod>& rods, const Region& ground, double length_mm, int rounds);

}  // namespace rakelight
