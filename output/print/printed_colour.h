// A colour as a sheet or a drawing can show it.
#pragma once

#include <array>
#include <cstdint>

#include "materials/colour/colorimetry.h"

namespace rakelight {

/// A colour on a page whose white stands for the light's.
struct PrintedColour {
    std::array<std::uint8_t, 3> srgb{};
    bool in_srgb = true;  ///< else drawn less vivid, hue and lightness kept
};
PrintedColour printed_colour(const Lab& lab);

}  // namespace rakelight
