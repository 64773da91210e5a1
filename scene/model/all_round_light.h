// Light from all round as the layout says it: a picture in place of the room's walls, floor and ceiling.
#pragma once

#include <memory>
#include <optional>
#include <string>

#include "scene/text/place.h"

namespace rakelight {

class AllRound;

/// Light from all round. The wall that the panel hangs on stays; the rest of the room is the picture.
struct AllRoundLight {
    std::string name = "light all round";
    std::string group;  ///< dimmed together with its lamps; defaults to the name
    std::string file;   ///< as written
    std::shared_ptr<const AllRound> picture;
    double turned_deg = 0;      ///< clockwise, seen from above
    std::optional<double> lux;  ///< at the panel, nothing in between; none = by `unit_cd_per_m2`
    double unit_cd_per_m2 = 1;  ///< luminance of red, green and blue of 1
    double dimming = 1;
    bool spots_apart = false;  ///< each of its bright spots a lamp group of its own
    Place place;
};

}  // namespace rakelight
