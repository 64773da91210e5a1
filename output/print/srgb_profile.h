// The sRGB profile that prints carry, so that a printer knows what their numbers mean.
#pragma once

#include <cstdint>
#include <vector>

namespace rakelight {

/// An ICC profile of sRGB (IEC 61966-2-1), of one make: the same bytes on any day.
std::vector<std::uint8_t> srgb_profile();

}  // namespace rakelight
