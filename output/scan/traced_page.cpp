#include "output/scan/traced_page.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <stdexcept>

#include "output/system/part_program.h"
#include "output/system/run_self.h"
#include "output/system/safe_file.h"

namespace rakelight {
namespace {

using nlohmann::json;

glm::dvec2 point(const json& j) {
    return {j.at(0).get<double>(), j.at(1).get<double>()};
}

void take(const json& line, TracedPage& page) {
    if (line.contains("px_per_mm")) {
        page.px_per_mm = line.at("px_per_mm");
        page.pixel_mm = line.at("pixel_mm");
    } else if (line.contains("spot")) {
        page.spots.push_back({line.at("spot"), point(line.at("at"))});
    } else if (line.contains("points")) {
        TracedChain chain{line.at("ink"), line.at("outline"), line.at("from"), line.at("to"), {}};
        for (const json& p : line.at("points")) chain.points_mm.push_back(point(p));
        page.chains.push_back(std::move(chain));
    }
}

}  // namespace

TracedPage trace_page(const BytePicture& picture, const PagePlace& place, const std::string& ink) {
    const auto program = find_part("find-lines");
    if (!program) throw std::runtime_error("to read a drawing on paper " + part_missing("find-lines"));
    const PassingFile passing("find-lines.ppm");
    write_file(passing.path, ppm_of(picture));
    std::string corners, said;
    for (const glm::dvec2& c : place.corners_px)
        corners += fmt::format("{}{:.4f},{:.4f}", corners.empty() ? "" : ",", c.x, c.y);
    TracedPage page;
    const auto listen = [&](std::string_view line) {
        if (const json j = json::parse(line, nullptr, false); j.is_object()) take(j, page);
    };
    const auto hear = [&](std::string_view line) { said = line; };
    const int code = run_program(program->string(),
                                 {passing.path.string(), corners, fmt::format("{}", place.size_mm.x),
                                  fmt::format("{}", place.size_mm.y), ink},
                                 {listen, hear, {}});
    if (code != 0) throw std::runtime_error(fmt::format("its part find-lines ended with {}: {}", code, said));
    return page;
}

}  // namespace rakelight
