#include "output/scan/found_svg.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <nlohmann/json.hpp>

namespace rakelight {
namespace {

using nlohmann::json;

constexpr double kStroke_mm = 0.35;

/// Plain tints one after another, so that neighbours differ.
std::string tint(std::size_t i) {
    static constexpr std::array<const char*, 8> kTints{"#e8f0f4", "#f6ecd9", "#e3f0e0", "#f4e3e3",
                                                       "#e9e3f3", "#f3f3da", "#dcefee", "#f5e6ef"};
    return kTints[i % kTints.size()];
}

std::string path_data(const Ring& points, double height_mm, bool closed) {
    std::string data;
    for (std::size_t i = 0; i < points.size(); ++i)
        data += fmt::format("{}{:.3f} {:.3f}", i == 0 ? "M" : " ", points[i].x, height_mm - points[i].y);
    return data + (closed ? "Z" : "");
}

std::string escaped(std::string_view text) {
    std::string out;
    for (const char c : text) out += c == '<' ? "&lt;" : c == '&' ? "&amp;" : std::string(1, c);
    return out;
}

std::string region_text(const FoundRegion& region, std::size_t number, double height_mm) {
    std::string data;
    for (const Ring& ring : region.rings_mm) data += path_data(ring, height_mm, true);
    const std::string label =
        region.spots.empty() ? "" : fmt::format(" data-name=\"spot {}\"", fmt::join(region.spots, " "));
    std::string text = fmt::format(
        "  <g id=\"region-{0}\">\n    <path id=\"outline-{0}\"{1} fill=\"{2}\" fill-rule=\"evenodd\" "
        "d=\"{3}\"/>\n",
        number, label, tint(number), data);
    for (std::size_t g = 0; g < region.guides.size(); ++g) {
        Ring points = region.guides[g].points_mm;
        if (points.size() > 3 && points.front() == points.back())
            points.pop_back();  // closed ones are outlines
        text += fmt::format("    <path id=\"guide-{}-{}\" fill=\"none\" stroke=\"{}\" d=\"{}\"/>\n", number,
                            g + 1, region.guides[g].ink, path_data(points, height_mm, false));
    }
    return text + "  </g>\n";
}

constexpr std::string_view kMetadata = "<metadata id=\"scan\">";

json points_json(std::span<const glm::dvec2> points) {
    json list = json::array();
    for (const glm::dvec2& p : points)
        list.push_back({std::round(1000 * p.x) / 1000, std::round(1000 * p.y) / 1000});
    return list;
}

std::string metadata(const FoundDrawing& drawing, const PagePlace& place) {
    json gaps = json::array();
    for (const Ring& closing : drawing.closings_mm) gaps.push_back(points_json(closing));
    const json said{{"corners_px", points_json(place.corners_px)},
                    {"size_mm", {place.size_mm.x, place.size_mm.y}},
                    {"px_per_mm", drawing.px_per_mm},
                    {"gaps_closed_mm", gaps}};
    return fmt::format("  {}{}</metadata>\n", kMetadata, said.dump());
}

}  // namespace

HowFound how_found(const std::string& svg) {
    const std::size_t at = svg.find(kMetadata),
                      end = svg.find("</metadata>", at == std::string::npos ? 0 : at);
    if (at == std::string::npos || end == std::string::npos) return {};
    try {
        const json said = json::parse(svg.substr(at + kMetadata.size(), end - at - kMetadata.size()));
        HowFound how;
        const auto point = [](const json& j) {
            return glm::dvec2(j.at(0).get<double>(), j.at(1).get<double>());
        };
        for (std::size_t i = 0; i < 4; ++i) how.place.corners_px[i] = point(said.at("corners_px").at(i));
        how.place.size_mm = point(said.at("size_mm"));
        how.px_per_mm = said.at("px_per_mm");
        for (const json& gap : said.at("gaps_closed_mm")) {
            how.closings_mm.emplace_back();
            for (const json& p : gap) how.closings_mm.back().push_back(point(p));
        }
        return how;
    } catch (const json::exception&) {
        return {};
    }
}

std::string found_svg(const FoundDrawing& drawing, const PagePlace& place, const std::string& name) {
    const double w = drawing.size_mm.x, h = drawing.size_mm.y;
    std::string text = fmt::format(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"{0:.6g}mm\" height=\"{1:.6g}mm\" "
        "viewBox=\"0 0 {0:.6g} {1:.6g}\" stroke=\"#333\" stroke-width=\"{2}\">\n  <title>{3}</title>\n",
        w, h, kStroke_mm, escaped(name));
    text += metadata(drawing, place);
    for (std::size_t i = 0; i < drawing.regions.size(); ++i)
        text += region_text(drawing.regions[i], i + 1, h);
    return text + "</svg>\n";
}

}  // namespace rakelight
