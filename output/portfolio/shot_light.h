// Light for pictures that the layout's own lamps do not show: one hard lamp for the sparkle, one along the
// face for the relief, the room by day and at dusk.
#pragma once

#include <string>

#include "output/portfolio/portfolio.h"
#include "scene/model/layout.h"

namespace rakelight {

struct ShotLight {
    Layout layout;     ///< the same panel and room under this light
    std::string note;  ///< the light in words
};

/// The light that a picture of the set is shown in: the set-up that the portfolio names for it, else the
/// layout's own but for sparkle and raking. In place and at dusk it is filled up to the general light of a
/// usual room, unless the layout has windows or names another light for the picture; `general_lux` fills up
/// to so much in any case.
/// \throws LayoutError when a set-up does not fit into the room.
ShotLight light_for(Shot shot, const Layout& layout, const Portfolio& portfolio);

/// Degrees between the raking lamp's beam and the panel's face, as of the set-ups that rake;
/// common practice, no published source.
inline constexpr double kRaking_deg = 10;

}  // namespace rakelight
