// The chart found in a photograph by itself: a component of its own (OpenCV), a program beside this one that
// is asked for the corners. Without it charts have to be told.
#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include "output/samples/spots.h"

namespace rakelight {

struct FoundChart {
    std::optional<ChartCorners> corners;
    std::string why_not;  ///< when there are none: in words, with what to do
};

FoundChart find_chart(const std::filesystem::path& picture);

}  // namespace rakelight
