// Spots of a photograph as readings: means over the pixels of a rectangle, or of the chart's patches as they
// lie in perspective.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "materials/photograph/chart_fit.h"
#include "output/samples/photograph.h"
#include "output/samples/sample_file.h"

namespace rakelight {

/// Where a chart lies: outer corners of dark skin, bluish green, black, white.
using ChartCorners = std::array<glm::dvec2, 4>;

/// How pixels are taken.
struct Taking {
    const Photograph& picture;
    bool linear = false;     ///< else the curve of sRGB is undone first, which most cameras' curves are near
    glm::dvec2 middle_px{};  ///< of the chart
    double width_px = 1;     ///< of the chart
};
Taking taking(const Photograph& picture, Tone tone, const ChartCorners& corners);

/// A place of the chart, (0, 0) to (1, 1), in the picture.
glm::dvec2 in_picture(const ChartCorners& corners, const glm::dvec2& on_chart);

/// A place of a rectangle, (0, 0) to (1, 1), in the picture.
glm::dvec2 in_picture(const PictureBox& box, const glm::dvec2& part);

/// Upper left corner, then clockwise as they are told, in the picture.
std::array<glm::dvec2, 4> corners_px(const PictureBox& box);

/// The longer of each two sides that lie opposite, width and height, in the picture.
glm::dvec2 size_px(const PictureBox& box);

/// A rectangle within the picture: mean of the pixels but for the darkest and the brightest tenth, which are
/// dust and glints. A channel with more than 1 % of its pixels clipped is not usable.
Reading read_box(const Taking& how, const PictureBox& box);

/// A sheet as spots, three by three of each rectangle.
std::vector<Reading> read_sheet(const Taking& how, const std::vector<PictureBox>& sheet);

/// The middle half of every patch.
std::array<Reading, kChartPatches> read_patches(const Taking& how, const ChartCorners& corners);

}  // namespace rakelight
