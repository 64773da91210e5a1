#include <fmt/format.h>

#include <filesystem>

#include "output/samples/desk.h"
#include "output/samples/find_chart.h"

namespace rakelight {

namespace {

// Warned of: common practice, no published source.
constexpr double kTwoLights = 0.07;
constexpr double kUnevenPatch = 0.1;
constexpr double kMisfit = 0.08;

bool within(const Photograph& picture, const glm::dvec2& low, const glm::dvec2& high) {
    const glm::dvec2 size(picture.size_px());
    return low.x >= 0 && low.y >= 0 && high.x <= size.x && high.y <= size.y;
}

void check_within(Desk& desk, const Photograph& picture, const PictureBox& box, const std::string& what) {
    if (within(picture, box.at, box.at + box.size)) return;
    desk.complain(box.said,
                  fmt::format("found {} from {:.6g}, {:.6g} to {:.6g}, {:.6g}, expected it within the "
                              "picture of {} x {} pixels",
                              what, box.at.x, box.at.y, box.at.x + box.size.x, box.at.y + box.size.y,
                              picture.size_px().x, picture.size_px().y));
}

/// On which side of the line from a to b a point lies; positive = to the right, y down.
double side_of(const glm::dvec2& a, const glm::dvec2& b, const glm::dvec2& p) {
    return (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x);
}

bool on_chart(const ChartCorners& corners, const PictureBox& box) {
    for (const glm::dvec2 part :
         {glm::dvec2(0, 0), glm::dvec2(1, 0), glm::dvec2(1, 1), glm::dvec2(0, 1), glm::dvec2(0.5, 0.5)}) {
        bool inside = true;
        for (std::size_t i = 0; i < 4; ++i)
            inside = inside && side_of(corners[i], corners[(i + 1) % 4], box.at + part * box.size) > 0;
        if (inside) return true;
    }
    return false;
}

bool round_about(const ChartCorners& corners) {
    for (std::size_t i = 0; i < 4; ++i)
        if (!(side_of(corners[i], corners[(i + 1) % 4], corners[(i + 2) % 4]) > 100)) return false;
    return true;
}

std::optional<ChartCorners> corners_of(Desk& desk, const PhotographSaid& said, const Photograph& picture) {
    if (!said.corners) {
        const FoundChart found = find_chart(picture, said.tone);
        if (!found.corners) desk.complain(said.chart_said, found.why_not);
        return found.corners;
    }
    for (const glm::dvec2& corner : *said.corners)
        if (!within(picture, corner, corner)) {
            desk.complain(
                said.chart_said,
                fmt::format("found a corner at {:.6g}, {:.6g}, expected the whole chart within the picture "
                            "of {} x {} pixels",
                            corner.x, corner.y, picture.size_px().x, picture.size_px().y));
            return std::nullopt;
        }
    if (!round_about(*said.corners)) {
        desk.complain(
            said.chart_said,
            "found corners that do not go round clockwise, expected those of dark skin, bluish green, "
            "black and white");
        return std::nullopt;
    }
    return said.corners;
}

void warn_of_chart(Desk& desk, const PhotographSaid& said, const ChartReadings& readings,
                   const ChartFit& fit) {
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
    if (!clipped.empty()) desk.warn(said.chart_said, "overexposed, and not used: " + named(clipped));
    if (!uneven.empty())
        desk.warn(
            said.chart_said,
            "uneven within the patch, by a highlight, a shadow or a corner set wrong: " + named(uneven));
    if (!fit.left_out.empty())
        desk.warn(said.chart_said,
                  "not of the colour that the others make likely, by a highlight or dirt, and not used: " +
                      named(fit.left_out));
    if (fit.two_lights > kTwoLights)
        desk.warn(said.chart_said,
                  fmt::format("the light changes its colour by {:.0f} % across the picture: two "
                              "lights; take it again with one",
                              100 * fit.two_lights));
    if (fit.misfit > kMisfit)
        desk.warn(said.chart_said,
                  fmt::format("the chart's colours are {:.0f} % off: a faded chart, or a picture "
                              "that was improved; expect the samples to be off as well",
                              100 * fit.misfit));
    if (fit.uneven_left > kUnevenLight)
        desk.warn(said.chart_said,
                  fmt::format("the light on the white sheet is uneven by {:.0f} % more than a smooth "
                              "fall explains",
                              100 * fit.uneven_left));
}

}  // namespace

void read_photograph(Desk& desk, OnDesk& on) {
    const PhotographSaid& said = on.said;
    try {
        on.picture.emplace(said.picture);
    } catch (const std::runtime_error& e) {
        desk.complain(said.said, fmt::format("{} ({})", e.what(), said.picture));
        return;
    }
    for (const SampleSpot& spot : said.spots) check_within(desk, *on.picture, spot.box, "a sample");
    for (const PictureBox& box : said.white_sheet) check_within(desk, *on.picture, box, "a white sheet");
    if (said.white_card) check_within(desk, *on.picture, *said.white_card, "the white card");
    if (said.black_card) check_within(desk, *on.picture, *said.black_card, "the black card");
    if (!desk.problems.empty()) return;
    const auto corners = corners_of(desk, said, *on.picture);
    if (!corners) return;
    for (const SampleSpot& spot : said.spots)
        if (on_chart(*corners, spot.box))
            desk.complain(spot.box.said, "found a sample on the chart, expected rectangles apart");
    on.how.emplace(taking(*on.picture, said.tone, *corners));
    const ChartReadings readings{read_patches(*on.how, *corners), read_sheet(*on.how, said.white_sheet),
                                 on.how->linear};
    ReadPhotograph read;
    read.picture = std::filesystem::path(said.picture).filename().string();
    read.light = said.light;
    read.spectrum = said.spectrum;
    read.linear = on.how->linear;
    read.chart_found = !said.corners;
    read.corners = *corners;
    try {
        read.fit = fit_chart(readings);
    } catch (const ChartRefused& e) {
        desk.complain(said.chart_said, e.what());
        return;
    }
    warn_of_chart(desk, said, readings, read.fit);
    desk.report.photographs.push_back(std::move(read));
}

}  // namespace rakelight
