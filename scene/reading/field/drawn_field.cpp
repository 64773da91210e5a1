#include "scene/reading/field/drawn_field.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "scene/geometry/region.h"
#include "scene/geometry/stroke.h"
#include "scene/keys/keys.h"
#include "scene/model/layout.h"
#include "scene/reading/field/strokes.h"
#include "scene/text/nearest_word.h"
#include "scene/text/units.h"

namespace rakelight {
namespace {

using Shape = YamlValue::Shape;

constexpr double kSmallestArea_mm2 = 1;
constexpr std::size_t kMostGuides = 2000;

/// The paths of a name; none when they were reported missing, or the drawing was.
std::vector<const DrawnPath*> find_drawn(const YamlValue& name, const std::string& key, DrawnSheet& sheet,
                                         ProblemList& problems) {
    if (name.shape != Shape::scalar || name.text.empty()) {
        problems.add(name, key,
                     "found " + found(name) + ", expected the name of a group or path of the drawing");
        return {};
    }
    if (!sheet.given()) {
        problems.add(name, key, "found " + quoted(name.text) + ", but the layout names no drawing");
        return {};
    }
    if (sheet.is_broken()) return {};
    if (!sheet.knows(name.text)) {
        problems.add(name, key,
                     fmt::format("found {}, expected the name of a group or path in {}{}", quoted(name.text),
                                 sheet.drawing().file, did_you_mean(name.text, sheet.names())));
        return {};
    }
    auto paths = sheet.take(name.text);
    if (paths.empty()) {
        const std::vector<std::string> takers = sheet.takers_within(name.text);
        problems.add(name, key,
                     fmt::format("found nothing drawn in {} that is not asked for by a name of its own{}{}, "
                                 "expected paths",
                                 quoted(name.text), takers.empty() ? "" : ": ", fmt::join(takers, ", ")));
    }
    return paths;
}

std::string shown(const DrawnPath& path, const std::string& key) {
    return path.name.shown().empty() ? key : printable(path.name.shown());
}

/// Reports what cannot be an outline. \return whether all is well.
bool check_ring(const DrawnPath& path, const Ring& ring, bool traced, const std::string& key,
                ProblemList& problems) {
    if (ring.size() > kMostStrokePoints) {
        problems.add(
            path.place, shown(path, key),
            fmt::format("found an outline of {} points, expected at most {}: raise the drawing's tolerance",
                        ring.size(), kMostStrokePoints));
        return false;
    }
    // Outlines traced from a map part or touch at corners of pixels as they please; clipping sorts them out.
    if (const auto at = traced ? std::nullopt : self_crossing_mm(ring)) {
        problems.add(
            path.place, shown(path, key),
            fmt::format(
                "found an outline that crosses itself near [{:.1f}, {:.1f}] mm on the panel, expected "
                "one that does not",
                at->x, at->y));
        return false;
    }
    return true;
}

/// A closed line without a fill may have been meant as a guide.
void tell_lines_taken_as_outlines(const std::vector<const DrawnPath*>& paths, const std::string& key,
                                  const Field& field, DrawnSheet& sheet) {
    for (const DrawnPath* path : paths) {
        const bool closed = std::any_of(path->lines.begin(), path->lines.end(),
                                        [](const DrawnLine& line) { return line.closed; });
        if (closed && path->unfilled)
            sheet.tell(to_string(
                {path->place, shown(*path, key),
                 fmt::format("found a closed line without a fill; it counts as an outline of the "
                             "field {}. Open it, or name it among the guides, if rows shall follow it",
                             field.name)}));
    }
}

DrawnGround set_outline(const std::vector<const DrawnPath*>& paths, const std::string& key, Field& field,
                        const Layout& layout, DrawnSheet& sheet, ProblemList& problems) {
    tell_lines_taken_as_outlines(paths, key, field, sheet);
    Region ground;
    bool good = true;
    for (const DrawnPath* path : paths) {
        std::vector<Ring> rings;
        for (const DrawnLine& line : path->lines) {
            if (!line.closed) continue;
            good &= check_ring(*path, line.points_mm, sheet.drawing().traced, key, problems);
            rings.push_back(line.points_mm);
        }
        if (good && !rings.empty()) ground = unite(ground, region_of(rings, path->even_odd));
    }
    if (!good || layout.panel.width_mm <= 0 || layout.panel.height_mm <= 0) return {true, std::nullopt};
    const Region panel = region_of(Ring{{0, 0},
                                        {layout.panel.width_mm, 0},
                                        {layout.panel.width_mm, layout.panel.height_mm},
                                        {0, layout.panel.height_mm}});
    const double area = area_mm2(intersect(ground, panel));
    const Place& place = paths.front()->place;
    if (area < kSmallestArea_mm2) {
        problems.add(
            place, shown(*paths.front(), key),
            fmt::format("found an outline off the panel, expected one within [0, 0] to [{:.6g}, {:.6g}] mm",
                        layout.panel.width_mm, layout.panel.height_mm));
        return {true, std::nullopt};
    }
    // The largest ring is nobody's hole.
    std::stable_sort(ground.rings.begin(), ground.rings.end(), [](const Ring& a, const Ring& b) {
        return std::abs(area_mm2(a)) > std::abs(area_mm2(b));
    });
    field.outline = {std::move(ground.rings.front()), false, true, place};
    for (std::size_t r = 1; r < ground.rings.size(); ++r)
        field.more_rings.push_back({std::move(ground.rings[r]), false, true, place});
    return {true, area};
}

void add_lines(const std::vector<const DrawnPath*>& paths, bool closed_too, const std::string& key,
               std::vector<Stroke>& lines, ProblemList& problems) {
    for (const DrawnPath* path : paths)
        for (const DrawnLine& line : path->lines) {
            if (line.closed && !closed_too) continue;
            if (lines.size() >= kMostGuides || line.points_mm.size() > kMostStrokePoints) {
                problems.add(
                    path->place, shown(*path, key),
                    fmt::format("found too much to follow, expected at most {} lines of {} points each",
                                kMostGuides, kMostStrokePoints));
                return;
            }
            lines.push_back({line.points_mm, false, line.closed, path->place});
        }
}

bool has_closed(const std::vector<const DrawnPath*>& paths) {
    return std::any_of(paths.begin(), paths.end(), [](const DrawnPath* path) {
        return std::any_of(path->lines.begin(), path->lines.end(),
                           [](const DrawnLine& line) { return line.closed; });
    });
}

/// `outline: {drawn: NAME}`
DrawnGround take_outline(const YamlValue& outline, Section& in, Field& field, const Layout& layout,
                         DrawnSheet& sheet) {
    const std::string key = in.path("outline");
    Section section(outline, key, keys::outline, in.problems());
    const YamlValue& name = *section.find("drawn");
    section.finish();
    const auto paths = find_drawn(name, section.path("drawn"), sheet, in.problems());
    if (paths.empty()) return {true, std::nullopt};
    if (has_closed(paths)) return set_outline(paths, key, field, layout, sheet, in.problems());
    const auto& open = paths.front()->lines.front().points_mm;
    in.problems().add(
        paths.front()->place, shown(*paths.front(), key),
        fmt::format("found an open path whose ends lie {:.1f} mm apart, expected a closed one for an outline",
                    glm::distance(open.front(), open.back())));
    return {true, std::nullopt};
}

const YamlValue* drawn_in(const YamlValue& value, std::string_view key = "drawn") {
    for (const YamlMember& m : value.members)
        if (m.key.text == key) return &m.value;
    return nullptr;
}

/// `scan at: [x, y]`, or a list of such points.
std::vector<glm::dvec2> read_points(const YamlValue& value, Section& section) {
    std::vector<glm::dvec2> points;
    const bool many = !value.items.empty() && value.items.front().shape == Shape::list;
    const std::vector<YamlValue> one{value};
    for (const YamlValue& item : many ? value.items : one) {
        std::array<double, 2> xy{};
        if (!read_numbers(xy, item, section.path("scan at"), Quantity::length_mm, section.range("scan at"),
                          section.problems()))
            return {};
        points.emplace_back(xy[0], xy[1]);
    }
    return points;
}

/// The regions that are asked for; none when that was reported.
std::vector<const DrawnPath*> find_scanned(Section& section, DrawnSheet& sheet, bool& again) {
    if (const YamlValue* at = section.find("scan at")) {
        std::vector<const DrawnPath*> paths;
        for (const glm::dvec2& p : read_points(*at, section)) {
            bool taken = false;
            const auto more = sheet.take_region(p, taken);
            if (more.empty() && !sheet.is_broken()) {
                section.problem(
                    "scan at",
                    fmt::format("found no region at [{:.6g}, {:.6g}] mm, expected a point within the "
                                "lines on the paper, which is {:.6g} x {:.6g} mm",
                                p.x, p.y, sheet.drawing().size_mm.x, sheet.drawing().size_mm.y));
                return {};
            }
            if (!more.empty() && std::find(paths.begin(), paths.end(), more.front()) != paths.end()) continue;
            again = again || taken;
            paths.insert(paths.end(), more.begin(), more.end());
        }
        return paths;
    }
    std::size_t word = 0;
    if (!section.set_word(word, "scan spot")) return {};
    const std::string ink = words_of(section.table(), "scan spot")[word];
    auto paths = sheet.take_spotted(ink, again);
    if (paths.empty() && !sheet.is_broken())
        section.problem(
            "scan spot",
            fmt::format("found no spot of {} in {}, expected {}", ink, sheet.drawing().file,
                        sheet.spots().empty() ? "a point instead, as in scan at: [120, 80]"
                                              : fmt::format("one of {}", fmt::join(sheet.spots(), ", "))));
    return paths;
}

/// `outline: {scan at: [x, y]}` and `outline: {scan spot: COLOUR}`.
DrawnGround take_scanned(const YamlValue& outline, Section& in, Field& field, const Layout& layout,
                         DrawnSheet& sheet) {
    const std::string key = in.path("outline");
    Section section(outline, key, keys::outline, in.problems());
    const char* asked = section.has("scan at") ? "scan at" : "scan spot";
    if (!sheet.is_broken() && !sheet.drawing().scanned) {
        section.find(asked);
        section.problem(
            asked,
            "found a region of a scan, but the layout's drawing is none, expected drawing: {scan: "
            "page.jpg}");
        return {true, std::nullopt};
    }
    bool again = false;
    const auto paths = find_scanned(section, sheet, again);
    section.finish();
    if (paths.empty()) return {true, std::nullopt};
    if (again)
        sheet.tell(to_string(
            {in.problems().place_of(outline), key,
             fmt::format("found a region for {} that is asked for already; a gap in the lines may be open",
                         field.name)}));
    add_lines(paths, false, key, field.guides, in.problems());
    return set_outline(paths, key, field, layout, sheet, in.problems());
}

/// A field without an outline takes the whole panel; not so when it was meant to be called like something
/// drawn.
void report_near_name(Section& in, const Field& field, const DrawnSheet& sheet) {
    if (!sheet.given() || sheet.is_broken() || field.name.empty() || sheet.knows(field.name)) return;
    const auto near = nearest_word(field.name, sheet.names());
    if (near && !sheet.knows(*near))
        in.problem("name",
                   fmt::format("found {} without an outline, expected one, or a name of the drawing; did you "
                               "mean {}?",
                               quoted(field.name), *near));
}

}  // namespace

DrawnGround take_drawn(Section& in, Field& field, const Layout& layout, DrawnSheet& sheet) {
    const YamlValue* drawn = in.find("drawn");
    const YamlValue* outline = in.find("outline");
    DrawnGround ground;
    if (outline && drawn_in(*outline)) ground = take_outline(*outline, in, field, layout, sheet);
    if (outline && (drawn_in(*outline, "scan at") || drawn_in(*outline, "scan spot")))
        ground = take_scanned(*outline, in, field, layout, sheet);
    if (!drawn && !outline) report_near_name(in, field, sheet);
    if (!drawn && (outline || !sheet.knows(field.name))) return ground;

    std::vector<const DrawnPath*> paths;
    if (drawn)
        paths = find_drawn(*drawn, in.path("drawn"), sheet, in.problems());
    else
        paths = sheet.take(field.name);
    const std::string key = in.path(drawn ? "drawn" : "name");
    add_lines(paths, false, key, field.guides, in.problems());
    if (paths.empty()) return {ground.given || drawn, ground.area_mm2};
    if (!has_closed(paths)) return ground;
    if (outline) {
        in.problem("drawn", "found closed paths in the drawing beside an outline here, expected one outline");
        return ground;
    }
    return set_outline(paths, key, field, layout, sheet, in.problems());
}

bool take_drawn_lines(const YamlValue& item, const std::string& key, std::vector<Stroke>& lines,
                      DrawnSheet& sheet, ProblemList& problems) {
    if (item.shape != Shape::mapping || !drawn_in(item)) return false;
    Section section(item, key, keys::guide, problems);
    const YamlValue& name = *section.find("drawn");
    section.finish();
    add_lines(find_drawn(name, section.path("drawn"), sheet, problems), true, key, lines, problems);
    return true;
}

void warn_of_far_guides(Section& in, const Field& field, Layout& layout) {
    if (field.guides.empty()) return;
    std::vector<Ring> rings{flatten(field.outline, kOutlineTolerance_mm)};
    for (const Stroke& ring : field.more_rings) rings.push_back(flatten(ring, kOutlineTolerance_mm));
    if (rings.front().size() < 3) return;
    const Region ground = region_of(rings, true);
    for (const Stroke& guide : field.guides) {
        const Ring chain = flatten(guide, kOutlineTolerance_mm);
        if (chain.size() < 2 || chain.size() > kMostStrokePoints || reaches(chain, guide.closed, ground))
            continue;
        layout.warnings.push_back(to_string({guide.place, in.path("guides"),
                                             fmt::format("found a guide wholly outside the field {}, near "
                                                         "[{:.1f}, {:.1f}] mm; its rows bend to it from afar",
                                                         field.name, chain.front().x, chain.front().y)}));
    }
}

}  // namespace rakelight
