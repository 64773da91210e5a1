// Where a name is written within a field, and how large: the place with most room round it for level letters
// (a pole of inaccessibility, Garcia-Castellanos and Lombardo 2007, "Poles of inaccessibility: a calculation
// algorithm for the remotest places on earth", Scottish Geographical Journal 123(3), here in the measure
// whose disc is the box of the words). The search halves squares and drops those that cannot hold anything
// better.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "scene/geometry/region.h"

namespace rakelight {

struct NameSpot {
    std::vector<std::string> lines;  ///< the name, broken between words where that lets it be larger
    glm::dvec2 at_mm{};              ///< middle of the block of lines
    double em_mm = 0;                ///< largest type that stays within the region; 0 = an empty region
};

/// Lines stand this far apart, in em.
inline constexpr double kLineStep_em = 1.15;

/// The best spot for a name. A line counts as wide as its letters are at 1 em in bold.
NameSpot name_spot(const Region& region, std::string_view name);

/// The middle and half the height of the largest box of `wide` : 1 that lies within the region, to within 2 %
/// of its size; the height is 0 in an empty region.
struct RoomiestBox {
    glm::dvec2 at_mm{};
    double half_height_mm = 0;
};
RoomiestBox roomiest_box(const Region& region, double wide);

}  // namespace rakelight
