#include "output/samples/find_chart.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <vector>

#include "materials/colour/colorimetry.h"
#include "output/system/part_program.h"
#include "output/system/run_self.h"
#include "output/system/safe_file.h"

namespace rakelight {

namespace {

constexpr int kMost_px = 1600;       // a side of the picture that is searched
constexpr double kMostMisfit = 0.1;  // of a chart that is believed to be one

/// The picture small enough to be searched, as a screen shows it. \return how many of its pixels make one.
double write_small(const Photograph& picture, bool linear, const std::filesystem::path& path) {
    const glm::ivec2 full = picture.size_px();
    const double scale = std::max(1.0, static_cast<double>(std::max(full.x, full.y)) / kMost_px);
    const glm::ivec2 size = glm::max(glm::ivec2(glm::dvec2(full) / scale), glm::ivec2(1));
    const int taken = static_cast<int>(std::ceil(scale));  // pixels of a side that are averaged
    std::string bytes = fmt::format("P6 {} {} 255\n", size.x, size.y);
    for (int y = 0; y < size.y; ++y)
        for (int x = 0; x < size.x; ++x) {
            glm::dvec3 sum(0);
            for (int k = 0; k < taken * taken; ++k) {
                const glm::dvec2 part = (glm::dvec2(k % taken, k / taken) + 0.5) / static_cast<double>(taken);
                const auto rgb =
                    picture.pixel(glm::min(glm::ivec2((glm::dvec2(x, y) + part) * scale), full - 1));
                sum += glm::dvec3(rgb[0], rgb[1], rgb[2]) / static_cast<double>(taken * taken);
            }
            const EncodedSrgb shown =
                linear ? encode(LinearRgb{sum.x, sum.y, sum.z}) : EncodedSrgb{sum.x, sum.y, sum.z};
            for (const std::uint8_t byte : to_bytes(shown)) bytes.push_back(static_cast<char>(byte));
        }
    write_file(path, bytes);
    return scale;
}

std::vector<ChartCorners> candidates(const std::filesystem::path& program, const std::filesystem::path& small,
                                     const char* contrast, double scale) {
    std::vector<ChartCorners> found;
    const JobListener listener{[&](std::string_view line) {
                                   const auto json = nlohmann::json::parse(line, nullptr, false);
                                   if (!json.is_array() || json.size() != 4) return;
                                   ChartCorners corners;
                                   for (std::size_t i = 0; i < 4; ++i)
                                       corners[i] = scale * glm::dvec2(json[i].at(0), json[i].at(1));
                                   found.push_back(corners);
                               },
                               [](std::string_view) {},
                               {}};
    run_program(program.string(), {small.string(), contrast}, listener);
    return found;
}

bool within(const ChartCorners& corners, const glm::dvec2& size) {
    return std::all_of(corners.begin(), corners.end(), [&](const glm::dvec2& c) {
        return c.x >= 0 && c.y >= 0 && c.x <= size.x && c.y <= size.y;
    });
}

/// Takes the candidate into `best` if it is a chart, from whichever corner, that fits better than `least`.
void judge(ChartCorners corners, const Photograph& picture, Tone tone, FoundChart& best, double& least,
           const std::string& expected) {
    if (!within(corners, glm::dvec2(picture.size_px()))) {
        best.why_not = fmt::format("found a chart that is cut off by the picture's edge, {}", expected);
        return;
    }
    for (int turn = 0; turn < 4; ++turn, std::rotate(corners.begin(), corners.begin() + 1, corners.end())) {
        const Taking how = taking(picture, tone, corners);
        try {
            const ChartFit fit = fit_chart({read_patches(how, corners), {}, how.linear});
            if (fit.misfit > least) continue;
            least = fit.misfit;
            best.corners = corners;
        } catch (const ChartRefused& e) {
            if (turn == 0)
                best.why_not = fmt::format("found what may be a chart, but {}; {}", e.what(), expected);
        }
    }
}

}  // namespace

FoundChart find_chart(const Photograph& picture, Tone tone, const std::string& expected) {
    const auto program = find_part("find-chart");
    if (!program)
        return {std::nullopt, fmt::format("found no corners, {}; to find charts by itself {}", expected,
                                          part_missing("find-chart"))};
    FoundChart best{std::nullopt, fmt::format("found no chart in the picture, {}", expected)};
    double least = kMostMisfit;
    const bool linear = tone == Tone::by_format ? picture.linear() : tone == Tone::linear;
    const PassingFile small("find-chart.ppm");
    const double scale = write_small(picture, linear, small.path);
    for (const char* contrast : {"7", "3", "12"}) {
        for (const ChartCorners& corners : candidates(*program, small.path, contrast, scale))
            judge(corners, picture, tone, best, least, expected);
        if (best.corners) break;
    }
    return best;
}

}  // namespace rakelight
