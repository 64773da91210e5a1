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

FoundChart find_chart(const Photograph& picture, Tone tone);

}  // namespace rakelight
