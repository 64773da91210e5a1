// Which pictures a run makes of a layout that can be shown in several lights.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "scene/model/views.h"

namespace rakelight {

struct Layout;

/// Of the option --light, alike in every command that has it.
inline constexpr const char* kLightHelp =
    "Show it in this light: own light, a set-up of the layout, or one known by name, such as \"gallery "
    "spot\"; may be given again";

/// The set-ups asked for, none twice, or those of the layout when none is. \throws LayoutError when one is
/// unknown or does not fit into the room.
std::vector<std::string> chosen_lights(const Layout& layout, std::span<const std::string> asked);

/// The pictures, light by light. A picture with a light of its own is taken in that; the others, and all when
/// lights were asked for, in each of `chosen_lights`, and named after both: "straight dusk". A layout of one
/// light leaves its pictures as they are. Lamps that a picture chooses but a light asked for lacks give way
/// to all of that light. \throws RequestError when two pictures would share a file name, LayoutError as
/// above.
std::vector<Picture> pictures_in_lights(const Layout& layout, std::span<const Picture> pictures,
                                        std::span<const std::string> asked);

}  // namespace rakelight
