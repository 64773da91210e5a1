#include "scene/reading/field/strokes.h"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <polyclipping/clipper.hpp>

#include "scene/geometry/stroke.h"
#include "scene/keys/takes.h"

namespace rakelight {
namespace {

using Shape = YamlValue::Shape;

constexpr double kSmallestArea_mm2 = 1;

bool read_points(std::vector<glm::dvec2>& points, const YamlValue& value, const std::string& key,
                 ProblemList& problems) {
    if (value.shape != Shape::list) {
        problems.add(value, key, "found " + found(value) + ", expected a list of points [x, y]");
        return false;
    }
    if (value.items.size() > kMostStrokePoints) {
        problems.add(value, key,
                     fmt::format("found {}, expected at most {} points", found(value), kMostStrokePoints));
        return false;
    }
    bool good = true;
    for (const YamlValue& item : value.items) {
        std::array<double, 2> p{};
        good &= read_numbers(p, item, key, Quantity::length_mm, keys::kNearPanel_mm, problems);
        points.emplace_back(p[0], p[1]);
    }
    return good;
}

/// Area of the polygon within the panel. Clipper counts in whole micrometres.
double area_on_panel_mm2(const std::vector<glm::dvec2>& outline, glm::dvec2 panel_mm) {
    constexpr double kPerMm = 1000;
    const auto whole = [](double x, double y) {
        return ClipperLib::IntPoint(std::llround(x * kPerMm), std::llround(y * kPerMm));
    };
    ClipperLib::Path subject;
    for (const glm::dvec2 p : outline) subject.push_back(whole(p.x, p.y));
    const ClipperLib::Path panel{whole(0, 0), whole(panel_mm.x, 0), whole(panel_mm.x, panel_mm.y),
                                 whole(0, panel_mm.y)};
    ClipperLib::Clipper clipper;
    clipper.AddPath(subject, ClipperLib::ptSubject, true);
    clipper.AddPath(panel, ClipperLib::ptClip, true);
    ClipperLib::Paths common;
    clipper.Execute(ClipperLib::ctIntersection, common, ClipperLib::pftNonZero, ClipperLib::pftNonZero);
    double area = 0;
    for (const ClipperLib::Path& path : common) area += ClipperLib::Area(path);
    return std::abs(area) / (kPerMm * kPerMm);
}

}  // namespace

std::optional<Stroke> read_stroke(const YamlValue& value, const std::string& key, bool closed,
                                  const KeyTable& table, ProblemList& problems) {
    Stroke stroke;
    stroke.closed = closed;
    stroke.place = problems.place_of(value);
    if (value.shape != Shape::mapping) {
        if (!read_points(stroke.points_mm, value, key, problems)) return std::nullopt;
        return stroke;
    }
    Section section(value, key, table, problems);
    struct Way {
        const char* key;
        bool smooth, closed;
    };
    constexpr Way kWays[] = {{"smooth", true, false},
                             {"straight", false, false},
                             {"closed smooth", true, true},
                             {"closed straight", false, true}};
    const YamlValue* points = nullptr;
    int ways = 0;
    for (const Way& way : kWays) {
        if (!row_of(table, way.key)) continue;
        const YamlValue* given = section.find(way.key);
        if (!given) continue;
        ++ways;
        points = given;
        stroke.smooth = way.smooth;
        stroke.closed = closed || way.closed;
    }
    section.finish();
    if (ways != 1) {
        problems.add(
            value, key,
            fmt::format("found {}, expected a list of points, or smooth, straight or closed smooth with one",
                        ways == 0 ? "no points" : "points given in several ways"));
        return std::nullopt;
    }
    if (!read_points(stroke.points_mm, *points, key, problems)) return std::nullopt;
    return stroke;
}

std::optional<double> check_outline(const Stroke& outline, glm::dvec2 panel_mm, const std::string& key,
                                    ProblemList& problems) {
    const auto problem = [&](std::string text) {
        problems.add(outline.place, key, std::move(text));
        return std::nullopt;
    };
    const std::vector<glm::dvec2> chain = flatten(outline, kOutlineTolerance_mm);
    if (chain.size() < 3)
        return problem(fmt::format("found {} different points, expected at least 3", chain.size()));
    if (chain.size() > kMostStrokePoints)
        return problem(
            fmt::format("found a curve of {} parts, expected at most {}", chain.size(), kMostStrokePoints));
    if (const auto at = self_crossing_mm(chain))
        return problem(
            fmt::format("found an outline that crosses itself near [{:.1f}, {:.1f}] mm, expected one that "
                        "does not",
                        at->x, at->y));
    if (panel_mm.x <= 0 || panel_mm.y <= 0) return std::nullopt;  // reported with the panel
    const double area = area_on_panel_mm2(chain, panel_mm);
    if (area < kSmallestArea_mm2)
        return problem(
            fmt::format("found an outline off the panel, expected one within [0, 0] to [{:.6g}, {:.6g}] mm",
                        panel_mm.x, panel_mm.y));
    return area;
}

void check_guide(const Stroke& guide, const std::string& key, ProblemList& problems) {
    const std::vector<glm::dvec2> chain = flatten(guide, kOutlineTolerance_mm);
    const size_t fewest = guide.closed ? 3 : 2;
    if (chain.size() < fewest)
        problems.add(guide.place, key,
                     fmt::format("found {} different points, expected at least {}", chain.size(), fewest));
    else if (chain.size() > kMostStrokePoints)
        problems.add(
            guide.place, key,
            fmt::format("found a curve of {} parts, expected at most {}", chain.size(), kMostStrokePoints));
}

}  // namespace rakelight
