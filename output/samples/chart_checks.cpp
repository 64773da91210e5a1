#include "output/samples/chart_checks.h"

#include <fmt/format.h>

namespace rakelight {

namespace {

// Warned of: common practice, no published source.
constexpr double kTwoLights = 0.07;
constexpr double kUnevenPatch = 0.1;
constexpr double kMisfit = 0.08;

bool round_about(const ChartCorners& corners) {
    for (std::size_t i = 0; i < 4; ++i)
        if (!(side_of(corners[i], corners[(i + 1) % 4], corners[(i + 2) % 4]) > 100)) return false;
    return true;
}

}  // namespace

std::optional<std::string> wrong_corners(const Photograph& picture, const ChartCorners& corners) {
    const glm::dvec2 size(picture.size_px());
    for (const glm::dvec2& corner : corners)
        if (!(corner.x >= 0 && corner.y >= 0 && corner.x <= size.x && corner.y <= size.y))
            return fmt::format(
                "found a corner at {:.6g}, {:.6g}, expected the whole chart within the picture of {} x {} "
                "pixels",
                corner.x, corner.y, picture.size_px().x, picture.size_px().y);
    if (!round_about(corners))
        return "found corners that do not go round clockwise, expected those of dark skin, bluish green, "
               "black and white";
    return std::nullopt;
}

std::vector<std::string> chart_doubts(const ChartReadings& readings, const ChartFit& fit) {
    std::vector<std::string> doubts;
    const auto named = [](const std::vector<std::size_t>& patches) {
        std::string names;
        for (const std::size_t i : patches)
            names += fmt::format("{}{}", names.empty() ? "" : ", ", chart24()[i].name);
        return names;
    };
    std::vector<std::size_t> clipped, uneven;
    for (std::size_t i = 0; i < kChartPatches; ++i) {
        const Reading& r = readings.patches[i];
        if (!(r.usable[0] && r.usable[1] && r.usable[2])) clipped.push_back(i);
        if (r.spread > kUnevenPatch && i + 2 < kChartPatches) uneven.push_back(i);  // dark greys are grainy
    }
    if (!clipped.empty()) doubts.push_back("overexposed, and not used: " + named(clipped));
    if (!uneven.empty())
        doubts.push_back("uneven within the patch, by a highlight, a shadow or a corner set wrong: " +
                         named(uneven));
    if (!fit.left_out.empty())
        doubts.push_back(
            "not of the colour that the others make likely, by a highlight or dirt, and not used: " +
            named(fit.left_out));
    if (fit.two_lights > kTwoLights)
        doubts.push_back(
            fmt::format("the light changes its colour by {:.0f} % across the picture: two "
                        "lights; take it again with one",
                        100 * fit.two_lights));
    if (fit.misfit > kMisfit)
        doubts.push_back(
            fmt::format("the chart's colours are {:.0f} % off: a faded chart, or a picture "
                        "that was improved; expect the samples to be off as well",
                        100 * fit.misfit));
    if (fit.uneven_left > kUnevenLight)
        doubts.push_back(
            fmt::format("the light on the white sheet is uneven by {:.0f} % more than a smooth "
                        "fall explains",
                        100 * fit.uneven_left));
    return doubts;
}

}  // namespace rakelight
