// Which stones glue alone should not be trusted with. A stone is held by what it sits in, up to the surface
// of the joints: the deeper it sits, the better; its weight pulls on that by a lever, from there out to its
// centre of gravity, and a knock by how far it stands proud. Common practice, no published source; it flags,
// it does not dimension.
#pragma once

#include <string>
#include <vector>

#include "output/take_off/reckoning/laid_volumes.h"

namespace rakelight {

struct Layout;

inline constexpr double kAnchorFrom_g = 100;      ///< and set less than half its height deep
inline constexpr double kAnchorProud_mm = 25;     ///< and farther out than it is deep
inline constexpr double kAnchorPull_g_mm = 1000;  ///< mass times lever: 100 g with its middle 10 mm out
inline constexpr double kNoAnchor_g = 20;         ///< a lighter one is held by glue, however it sits
inline constexpr double kBoltFrom_g = 1000;

struct StoneAnchor {
    std::string id;          ///< as in the piece table: "stone#3", "near rocks#12"
    std::size_t number = 0;  ///< on the map, from 1
    std::uint32_t material = 0;
    glm::dvec2 at_mm{};
    Ring outline_mm;
    double mass_g = 0;
    double proud_mm = 0;  ///< above the faces round it
    double tall_mm = 0;
    double deep_mm = 0;       ///< of that below the surface of the joints round it
    double lever_mm = 0;      ///< of its centre of gravity before that surface; negative below it
    double off_board_mm = 0;  ///< of its centre of gravity
    std::vector<std::string> reasons;
    std::string how;  ///< what is usual for such a stone
};

/// Stones, and pieces that stand as chunks or pebbles, by number.
std::vector<StoneAnchor> stone_anchors(const Layout& layout, const Laying& laying,
                                       const LaidVolumes& volumes);

}  // namespace rakelight
