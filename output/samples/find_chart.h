// The chart found in a photograph by itself: a component of its own (output/find_chart, OpenCV), asked for
// places where a chart may lie; only one whose patches have the colours of the chart is taken. Without it
// charts have to be told.
#pragma once

#include <optional>
#include <string>

#include "output/samples/spots.h"

namespace rakelight {

struct FoundChart {
    std::optional<ChartCorners> corners;
    std::string why_not;  ///< when there are none: in words, with what to do
};

inline constexpr const char* kCornersInFile =
    "expected chart: {corners: [[x, y], [x, y], [x, y], [x, y]]}, the outer corners of dark skin, bluish "
    "green, black and white";

/// `expected`: how its corners can be told instead, for `why_not`.
FoundChart find_chart(const Photograph& picture, Tone tone, const std::string& expected = kCornersInFile);

}  // namespace rakelight
