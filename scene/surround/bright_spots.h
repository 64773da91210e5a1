// Bright spots of a picture of light all round: its small lamps.
#pragma once

#include <cstdint>
#include <vector>

#include "scene/surround/surround_picture.h"

namespace rakelight {

/// Brighter than this many times the mean of what is not: as a window that unified glare counts as a source.
inline constexpr double kSpotTimesMean = 5;
/// No larger than sources of the unified glare rating are (CIE 117-1995: 0.0003 to 0.1 sr).
inline constexpr double kLargestSpot_sr = 0.1;
inline constexpr std::size_t kMostSpots = 12;

/// Pixels of each spot, those that give most light first: groups of pixels that touch, also by a corner or
/// over the edge of the picture, are brighter than kSpotTimesMean times the mean of the rest, and give at
/// least a five-hundredth of all the light.
std::vector<std::vector<std::uint32_t>> bright_spots(const SurroundPicture& picture);

}  // namespace rakelight
