// What is wrong or doubtful about a chart in a photograph, in words.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "output/samples/spots.h"

namespace rakelight {

/// What the light may be uneven by before it is warned of, as a share.
inline constexpr double kUnevenLight = 0.05;

/// Why corners cannot be those of a chart in this picture: outside of it, or not clockwise.
std::optional<std::string> wrong_corners(const Photograph& picture, const ChartCorners& corners);

/// What to warn of: patches clipped, uneven or left out, two lights, a faded chart.
std::vector<std::string> chart_doubts(const ChartReadings& readings, const ChartFit& fit);

/// On which side of the line from a to b a point lies; positive = to the right, y down.
inline double side_of(const glm::dvec2& a, const glm::dvec2& b, const glm::dvec2& p) {
    return (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x);
}

}  // namespace rakelight
