// What a room usually has that nobody thinks of saying: boards on the floor, skirting, a door, a bench.
// Without them a picture of the place is bare. Common practice, no published source.
#pragma once

#include <span>

#include "scene/room/stand_in.h"

namespace rakelight {

struct Layout;

inline constexpr double kUsualBoard_mm = 140, kUsualSkirting_mm = 90;

/// Fills in what the layout does not say of boards (on a floor of timber), skirting, a door and furniture,
/// clear of what is there and of `stand_ins`. What it says stays, and so does everything where a picture of
/// light from all round stands for the room. Materials that it needs are added to the layout's stock.
void furnish(Layout& layout, std::span<const StandInPlace> stand_ins);

}  // namespace rakelight
