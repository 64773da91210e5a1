#include <fmt/format.h>

#include <filesystem>

#include "output/samples/chart_checks.h"
#include "output/samples/desk.h"
#include "output/samples/find_chart.h"
#include "output/samples/on_sheet.h"

namespace rakelight {

namespace {

void check_within(Desk& desk, const Photograph& picture, const PictureBox& box, const std::string& what) {
    const glm::dvec2 high = box.at + box.size, size(picture.size_px());
    if (box.at.x >= 0 && box.at.y >= 0 && high.x <= size.x && high.y <= size.y) return;
    desk.complain(
        box.said,
        fmt::format("found {} from {:.6g}, {:.6g} to {:.6g}, {:.6g}, expected it within the "
                    "picture of {} x {} pixels",
                    what, box.at.x, box.at.y, high.x, high.y, picture.size_px().x, picture.size_px().y));
}

bool on_chart(const ChartCorners& corners, const PictureBox& box) {
    for (const glm::dvec2 part :
         {glm::dvec2(0, 0), glm::dvec2(1, 0), glm::dvec2(1, 1), glm::dvec2(0, 1), glm::dvec2(0.5, 0.5)}) {
        const glm::dvec2 at = in_picture(box, part);
        bool inside = true;
        for (std::size_t i = 0; i < 4; ++i)
            inside = inside && side_of(corners[i], corners[(i + 1) % 4], at) > 0;
        if (inside) return true;
    }
    return false;
}

std::optional<ChartCorners> corners_of(Desk& desk, const PhotographSaid& said, const Photograph& picture) {
    if (!said.corners) {
        const FoundChart found = find_chart(picture, said.tone);
        if (!found.corners) desk.complain(said.chart_said, found.why_not);
        return found.corners;
    }
    if (const auto wrong = wrong_corners(picture, *said.corners)) {
        desk.complain(said.chart_said, *wrong);
        return std::nullopt;
    }
    return said.corners;
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
    ReadPhotograph read;
    if (said.places == Places::on_sheet)
        read.sheet_misfit_mm = put_into_picture(desk, on);
    else
        for_boxes(on.said, [&](const PictureBox& box, const char* what) {
            check_within(desk, *on.picture, box, what);
        });
    if (!desk.problems.empty()) return;
    const auto corners = corners_of(desk, said, *on.picture);
    if (!corners) return;
    for (const SampleSpot& spot : said.spots)
        if (on_chart(*corners, spot.box))
            desk.complain(spot.box.said, "found a sample on the chart, expected rectangles apart");
    on.how.emplace(taking(*on.picture, said.tone, *corners));
    const ChartReadings readings{read_patches(*on.how, *corners), read_sheet(*on.how, said.white_sheet),
                                 on.how->linear};
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
    for (const std::string& doubt : chart_doubts(readings, read.fit)) desk.warn(said.chart_said, doubt);
    desk.report.photographs.push_back(std::move(read));
}

}  // namespace rakelight
