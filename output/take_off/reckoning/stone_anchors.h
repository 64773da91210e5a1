// Which stones glue alone should not be trusted with: heavy ones, proud ones, those whose weight hangs far
// out. Common practice, no published source; it flags, it does not dimension.
#pragma once

#include <string>
#include <vector>

#include "output/take_off/reckoning/laid_volumes.h"

namespace rakelight {

struct Layout;

inline constexpr double kAnchorFrom_g = 100;
inline constexpr double kAnchorProud_mm = 25;
inline constexpr double kAnchorOff_mm = 15;  ///< of the centre of gravity before the board
inline constexpr double kBoltFrom_g = 1000;

struct StoneAnchor {
    std::string id;          ///< as in the piece table: "stone#3", "near rocks#12"
    std::size_t number = 0;  ///< on the map, from 1
    std::uint32_t material = 0;
    glm::dvec2 at_mm{};
    Ring outline_mm;
    double mass_g = 0;
    double proud_mm = 0;      ///< above the faces round it
    double off_board_mm = 0;  ///< of its centre of gravity
    std::vector<std::string> reasons;
    std::string how;  ///< what is usual for such a stone
};

/// Stones, and pieces that stand as chunks or pebbles, by number.
std::vector<StoneAnchor> stone_anchors(const Layout& layout, const Laying& laying,
                                       const LaidVolumes& volumes);

}  // namespace rakelight
