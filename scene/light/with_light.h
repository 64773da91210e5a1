// One room, several lights: which set-ups a layout can be shown in, and how one of them is switched on.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "scene/model/layout.h"

namespace rakelight {

/// The lamps, windows and daylight that the file lists outside of any set-up.
inline constexpr std::string_view kOwnLight = "own light";

/// Every name that `with_light` knows: own light, set-ups of the file, then those known to the program.
std::vector<std::string> light_choices(const std::vector<Lighting>& set_ups);

/// Puts lamps, windows, daylight and picture all round of a set-up into the layout.
void put_light(Layout& layout, const Lighting& set_up);

/// The set-up of that name: of the file, or known to the program and made for this room and panel.
/// \throws LayoutError for an unknown name.
Lighting set_up_called(const Layout& layout, std::string_view name);

/// What keeps the light that is on in the layout from being used: no lamp and no window, a lamp or a window
/// where it cannot be. "found X, expected Y", or empty.
std::string why_no_light(const Layout& layout);

/// The layout with that set-up on. What is laid does not depend on it. \throws LayoutError for an unknown
/// name, or when the set-up does not fit into the room.
Layout with_light(const Layout& layout, std::string_view name);

}  // namespace rakelight
