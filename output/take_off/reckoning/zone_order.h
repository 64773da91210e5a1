// In which order grout zones are filled: lightest first where they touch, since dark fines stain pale cement
// and open pores, and the reverse never shows. Common practice, no published source. The order is that of a
// graph of "this before that" (Kahn 1962, "Topological sorting of large networks", CACM 5(11)), its ties
// settled as a hand would.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "output/take_off/reckoning/workshop.h"

namespace rakelight {

/// Lightness differences under this are not worth waiting for.
inline constexpr double kImmaterialLightness = 5;

/// What the order of a zone hangs on.
struct ZoneTraits {
    std::string name;
    double lightness = 0;    ///< L* of the cured grout in daylight
    double middle_y_mm = 0;  ///< of its area
    double area_mm2 = 0;
    bool sanded = false;
    bool epoxy = false;
    bool unsealed_pores = false;  ///< open-pored pieces that nobody seals
};

struct OrderEdge {
    enum class Why { lighter, pores, wish };
    std::size_t before = 0;
    std::size_t after = 0;
    Why why = Why::lighter;
    double by = 0;          ///< difference of L*, of `lighter`
    bool given_up = false;  ///< it stood in a circle
};

struct ZoneOrder {
    std::vector<std::size_t> order;  ///< zones, the first to be filled first
    std::vector<OrderEdge> edges;
    std::vector<std::vector<std::size_t>> cycles;            ///< "this before that" in a circle, as found
    std::vector<std::pair<std::size_t, std::size_t>> alike;  ///< neighbours whose order is immaterial
};

/// `touching`: pairs of zones with a common boundary. Every circle is reported and opened at its weakest
/// edge: the least difference of lightness, then pores; wishes are kept. Precondition: the wishes alone make
/// no circle.
ZoneOrder order_zones(const std::vector<ZoneTraits>& zones,
                      const std::vector<std::pair<std::size_t, std::size_t>>& touching,
                      const std::vector<BeforeWish>& wishes);

/// Names along the first circle that the wishes make, its first name again at the end; empty when there is
/// none.
std::vector<std::string> cycle_of_wishes(const std::vector<std::string>& zones,
                                         const std::vector<BeforeWish>& wishes);

}  // namespace rakelight
