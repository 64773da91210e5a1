#include "scene/reading/field/drawing.h"

#include <fmt/format.h>

#include <charconv>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <optional>
#include <utility>

#include "scene/drawing/colour_map.h"
#include "scene/drawing/svg/reader.h"
#include "scene/model/layout.h"
#include "scene/reading/field/scan.h"

namespace rakelight {
namespace {

using Shape = YamlValue::Shape;

constexpr double kSameSize_mm = 0.5;

const YamlValue* member(const YamlValue& value, std::string_view key) {
    for (const YamlMember& m : value.members)
        if (m.key.text == key) return &m.value;
    return nullptr;
}

struct AskedNames {
    std::vector<std::string> ground, guides;
};

/// Every name that a field asks the drawing for, and those of fields that would take what is called like
/// them.
AskedNames asked_names(const YamlValue* fields) {
    AskedNames names;
    const auto add = [&](const YamlValue* name) {
        if (name && name->shape == Shape::scalar) names.ground.push_back(name->text);
    };
    if (!fields) return names;
    for (const YamlValue& field : fields->items) {
        const YamlValue *drawn = member(field, "drawn"), *outline = member(field, "outline");
        add(drawn ? drawn : outline ? member(*outline, "drawn") : member(field, "name"));
        if (drawn && outline) add(member(*outline, "drawn"));
        if (const YamlValue* guides = member(field, "guides"))
            for (const YamlValue& guide : guides->items)
                if (const YamlValue* name = member(guide, "drawn"); name && name->shape == Shape::scalar)
                    names.guides.push_back(name->text);
    }
    return names;
}

std::optional<std::array<std::uint8_t, 3>> read_colour(std::string_view text) {
    if (text.starts_with('#')) text.remove_prefix(1);
    std::uint32_t value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value, 16);
    if (text.size() != 6 || error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
    const auto byte = [&](int shift) { return static_cast<std::uint8_t>(value >> shift & 0xff); };
    return std::array{byte(16), byte(8), byte(0)};
}

std::vector<MapColour> read_colours(Section& in) {
    std::vector<MapColour> colours;
    const YamlValue* list = in.require("colours", "the colours of the map, such as {sea: \"#1f4a5a\"}");
    if (!list) return colours;
    if (list->shape != Shape::mapping || list->members.empty() || list->members.size() > kMostMapColours) {
        in.problem("colours", fmt::format("found {}, expected 1 to {} colours, such as {{sea: \"#1f4a5a\"}}",
                                          found(*list), kMostMapColours));
        return colours;
    }
    Section section(*list, in, "colours");  // reports duplicates
    for (const YamlMember& each : list->members) {
        const auto srgb = read_colour(each.value.text);
        if (!srgb) {
            in.problems().add(each.value, section.path(each.key.text),
                              "found " + found(each.value) +
                                  ", expected six hexadecimal digits in quotes, such as \"#1f4a5a\"");
            continue;
        }
        for (const MapColour& other : colours)
            if (colour_distance(other.srgb, *srgb) < kColourGap)
                in.problems().add(
                    each.value, section.path(each.key.text),
                    fmt::format("found a colour much like that of {}, expected them {:g} apart in CIELAB",
                                other.name, kColourGap));
        colours.push_back({each.key.text, *srgb, in.problems().place_of(each.key)});
    }
    return colours;
}

void warn_of_size(const Drawing& drawing, bool scaled, Layout& layout) {
    const glm::dvec2 size = drawing.size_mm;
    if (std::abs(size.x - layout.panel.width_mm) <= kSameSize_mm &&
        std::abs(size.y - layout.panel.height_mm) <= kSameSize_mm)
        return;
    std::string text = fmt::format(
        "found a page of {:.6g} x {:.6g} mm, the panel is {:.6g} x {:.6g} mm; their lower left corners are "
        "laid "
        "together{}",
        size.x, size.y, layout.panel.width_mm, layout.panel.height_mm,
        scaled ? "" : ", and `width` would scale it");
    Problem told;
    told.place.file = drawing.file;
    told.text = std::move(text);
    layout.warnings.push_back(to_string(told));
}

std::string text_of(const std::filesystem::path& path) {
    std::ifstream in(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

/// The kept drawing beside the scan, if it was found from just this.
std::optional<Drawing> read_scanned(Section& in, Section& file, Layout& layout) {
    const auto said = read_scan(in);
    if (!said) return std::nullopt;
    const std::filesystem::path found = found_beside(said->scan);
    layout.sources.files.push_back(said->scan);
    layout.sources.files.push_back(found);
    const std::string key = scan_key(*said);
    const auto refuse = [&](const std::string& what) {
        file.problems().add(said->place, "drawing.scan", what);
        return std::nullopt;
    };
    if (key.empty())
        return refuse(fmt::format("found no such file as {}, expected a picture", said->scan.string()));
    const KeptScan kept = kept_scan(text_of(found));
    if (kept.key.empty())
        return refuse(
            fmt::format("found no {} beside it yet, expected the lines that `rakelight check` finds in it",
                        found.filename().string()));
    if (kept.key != key)
        return refuse(fmt::format(
            "found a scan, or keys of it, other than {} was made from, expected `rakelight check` "
            "to find its lines again",
            found.filename().string()));
    Drawing drawing = read_svg(found, {said->width_mm, kDrawnTolerance_mm / 50});
    drawing.traced = drawing.scanned = true;
    return drawing;
}

/// What the mapping, or the file's name alone, asks for; none when it is bad.
std::optional<Drawing> read_named(const YamlValue& value, Section& file, Layout& layout) {
    const auto beside = [&](const std::string& name) {
        const auto path = file.problems().beside(value, name);
        layout.sources.files.push_back(path);
        return path;
    };
    if (value.shape == Shape::scalar && !value.text.empty()) return read_svg(beside(value.text));
    Section in(value, file, "drawing");
    if (value.shape != Shape::mapping) return std::nullopt;
    std::string drawing, map;
    in.set(drawing, "file");
    in.set(map, "areas");
    const bool scan = in.has("scan");
    if (const int kinds = !drawing.empty() + !map.empty() + scan; kinds != 1) {
        file.problem("drawing",
                     fmt::format("found {}, expected one of file (a drawing), areas (a map of flat "
                                 "colours) and scan (a drawing on paper)",
                                 kinds == 0 ? "none of them" : "several of them"));
        return std::nullopt;
    }
    if (scan) return read_scanned(in, file, layout);
    if (map.empty()) {
        SvgOptions options;
        in.set(options.width_mm, "width");
        in.set(options.tolerance_mm, "tolerance");
        in.finish();
        return read_svg(beside(drawing), options);
    }
    MapOptions options{.width_mm = layout.panel.width_mm};
    in.set(options.width_mm, "width");
    in.set(options.specks_mm, "specks");
    const std::vector<MapColour> colours = read_colours(in);
    in.finish();
    if (!file.problems().empty() || options.width_mm <= 0) return std::nullopt;
    return read_colour_map(beside(map), colours, options);
}

}  // namespace

DrawnSheet read_drawing(Section& file, Layout& layout) {
    const YamlValue* value = file.find("drawing");
    if (!value) return {};
    try {
        std::optional<Drawing> drawing = read_named(*value, file, layout);
        if (!drawing) return DrawnSheet::broken();
        layout.warnings.insert(layout.warnings.end(), drawing->warnings.begin(), drawing->warnings.end());
        if (layout.panel.width_mm > 0)
            warn_of_size(*drawing, value->shape == Shape::mapping && member(*value, "width"), layout);
        const AskedNames names = asked_names(file.find("fields"));
        return DrawnSheet(std::move(*drawing), names.ground, names.guides);
    } catch (const LayoutError& error) {
        for (const Problem& problem : error.problems())
            file.problems().add(problem.place, problem.key, problem.text);
        if (error.problems().front().place.line == 0)  // the file as a whole: say who asked for it
            file.problem(
                "drawing",
                fmt::format("found problems in {}, listed with it, expected a drawing that can be read",
                            error.problems().front().place.file));
        return DrawnSheet::broken();
    }
}

}  // namespace rakelight
