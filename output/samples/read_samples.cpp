#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "materials/colour/illuminants.h"
#include "output/samples/keys.h"
#include "output/samples/light_said.h"
#include "output/samples/sample_file.h"
#include "output/system/day.h"
#include "scene/light/emitter.h"
#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"
#include "scene/room/defaults.h"
#include "scene/text/layout_tree.h"
#include "scene/text/nearest_word.h"
#include "scene/text/yaml_reader.h"

namespace rakelight {

namespace {

Said said(const Section& in, std::string_view key, const YamlValue& at, ProblemList& problems) {
    return {problems.place_of(at), in.path(key)};
}

bool read_place(std::span<double> v, const YamlValue& value, const std::string& key, Places places,
                ProblemList& problems) {
    return places == Places::in_pixels
               ? read_numbers(v, value, key, Quantity::plain, sample_keys::kPixels, problems)
               : read_numbers(v, value, key, Quantity::length_mm, sample_keys::kOnSheet_mm, problems);
}

std::optional<PictureBox> read_box(Section& in, std::string_view key, const YamlValue& value, Places places) {
    std::array<double, 4> v{};
    if (!read_place(v, value, in.path(key), places, in.problems())) return std::nullopt;
    const double least = places == Places::in_pixels ? 4 : 1;
    if (v[2] < least || v[3] < least) {
        in.problems().add(value, in.path(key),
                          fmt::format("found {} x {} {}, expected left, top, width and height of at least {}",
                                      number_text(v[2]), number_text(v[3]),
                                      places == Places::in_pixels ? "pixels" : "mm", least));
        return std::nullopt;
    }
    return PictureBox{{v[0], v[1]}, {v[2], v[3]}, said(in, key, value, in.problems())};
}

std::optional<PictureBox> read_box(Section& in, std::string_view key, Places places) {
    const YamlValue* value = in.find(key);
    return value ? read_box(in, key, *value, places) : std::nullopt;
}

void read_chart(Section& in, PhotographSaid& photograph) {
    photograph.chart_said = photograph.said;
    for_mapping(in, "chart", [&](Section& chart) {
        photograph.chart_said = {chart.place(), in.path("chart")};
        const YamlValue* list = chart.require("corners", "four points [x, y]");
        if (!list) return;
        if (list->shape != YamlValue::Shape::list || list->items.size() != 4) {
            chart.problem("corners", "found " + found(*list) + ", expected four points [x, y]");
            return;
        }
        std::array<glm::dvec2, 4> corners;
        bool good = true;
        for (std::size_t i = 0; i < 4; ++i) {
            std::array<double, 2> p{};
            good &= read_place(p, list->items[i], chart.path("corners"), photograph.places, in.problems());
            corners[i] = {p[0], p[1]};
        }
        if (good) photograph.corners = corners;
    });
}

void read_spots(Section& in, PhotographSaid& photograph) {
    if (!in.require("samples", "where samples lie in this picture")) return;
    for_each_item(in, "samples", [&](Section& at) {
        SampleSpot spot;
        if (!at.require("name", "the name of a sample") || !at.set(spot.name, "name")) return;
        std::size_t word = 0;
        if (at.set_word(word, "over")) spot.over = static_cast<Over>(word);
        if (!at.require("rectangle", "[left, top, width, height]")) return;
        if (const auto box = read_box(at, "rectangle", photograph.places)) {
            spot.box = *box;
            photograph.spots.push_back(std::move(spot));
        }
    });
}

/// The spectrum of a lamp of a layout. \throws LayoutError of that layout.
void read_lamp(Section& in, PhotographSaid& photograph) {
    std::string file;
    const YamlValue* layout_said = in.require("layout", "a layout file beside this one");
    if (!layout_said || !in.set(file, "layout") || !in.require("lamp", "the name of a lamp") ||
        !in.set(photograph.light, "lamp"))
        return;
    const Layout layout = read_layout(in.problems().beside(*layout_said, file));
    std::vector<std::string> known;
    for (const Lamp& lamp : layout.on.lamps) {
        known.push_back(lamp.name);
        if (lamp.name == photograph.light || lamp.group == photograph.light) {
            photograph.spectrum = lamp_spectrum(lamp);
            return;
        }
    }
    in.problem("lamp", "found " + rakelight::quoted(photograph.light) + ", expected a lamp of " +
                           rakelight::quoted(file) + did_you_mean(photograph.light, known));
}

void read_light(Section& in, PhotographSaid& photograph) {
    photograph.spectrum = *light_said(photograph.light);
    if (const YamlValue* value = in.find("light"); value && value->shape == YamlValue::Shape::mapping) {
        for_mapping(in, "light", [&](Section& lamp) { read_lamp(lamp, photograph); });
        return;
    }
    if (!in.set(photograph.light, "light")) return;
    if (const auto spectrum = light_said(photograph.light)) {
        photograph.spectrum = *spectrum;
        return;
    }
    std::vector<std::string> known = illuminant_names();
    known.emplace_back("unknown daylight");
    in.problem("light",
               "found " + rakelight::quoted(photograph.light) +
                   ", expected unknown daylight, a CIE illuminant such as D65, A, F11 or LED-B3, or a "
                   "temperature such as 2700 K" +
                   did_you_mean(photograph.light, known));
}

void read_photograph(Section& in, SampleFile& file) {
    PhotographSaid p;
    p.said = {in.place(), in.path("")};
    if (const YamlValue* picture = in.require("picture", "a picture file beside this one")) {
        if (in.set(p.picture, "picture")) p.picture = in.problems().beside(*picture, p.picture);
        p.said = said(in, "picture", *picture, in.problems());
    }
    std::size_t word = 0;
    if (in.set_word(word, "places")) {
        p.places = static_cast<Places>(word);
        p.places_said = said(in, "places", *in.find("places"), in.problems());
    }
    read_chart(in, p);
    read_light(in, p);
    if (in.set_word(word, "lit from")) p.lit_from = static_cast<LitFrom>(word);
    word = static_cast<std::size_t>(p.glass_lies);
    if (in.set_word(word, "glass lies")) p.glass_lies = static_cast<Lying>(word);
    if (in.set_word(word, "tone")) p.tone = word == 0 ? Tone::camera : Tone::linear;
    if (const YamlValue* sheet = in.find("white sheet")) {
        if (sheet->shape != YamlValue::Shape::list)
            in.problem("white sheet", "found " + found(*sheet) + ", expected a list of rectangles");
        for (const YamlValue& item : sheet->items)
            if (const auto box = read_box(in, "white sheet", item, p.places)) p.white_sheet.push_back(*box);
    }
    p.white_card = read_box(in, "white card", p.places);
    p.black_card = read_box(in, "black card", p.places);
    read_spots(in, p);
    file.photographs.push_back(std::move(p));
}

void read_sample(const YamlMember& entry, const Section& entries, SampleFile& file) {
    constexpr std::array kKinds{Kind::glass, Kind::stone,  Kind::slag, Kind::cement,
                                Kind::epoxy, Kind::timber, Kind::paint};
    Section in(entry.value, entries, entry.key.text);
    SampleSaid s;
    s.name = entry.key.text;
    s.said = {in.problems().place_of(entry.key), entries.path(s.name)};
    std::size_t word = 0;
    if (in.require("kind", "what it is made of") && in.set_word(word, "kind"))
        s.material = usual_material(kKinds[word]);
    s.material.name = s.name;
    s.has_thickness = in.set(s.material.thickness_mm, "thickness");
    in.set(s.material.index, "index");
    in.set(s.material.roughness, "roughness");
    double milkiness = 0;
    if (in.set(milkiness, "milkiness")) s.milkiness_per_mm = milkiness;
    in.finish();
    file.samples.push_back(std::move(s));
}

const SampleSaid* find_sample(const SampleFile& file, const std::string& name) {
    const auto at = std::find_if(file.samples.begin(), file.samples.end(),
                                 [&](const SampleSaid& s) { return s.name == name; });
    return at == file.samples.end() ? nullptr : &*at;
}

bool overlap(const PictureBox& a, const PictureBox& b) {
    const glm::dvec2 low = glm::max(a.at, b.at), high = glm::min(a.at + a.size, b.at + b.size);
    return low.x < high.x && low.y < high.y;
}

/// Every rectangle of a photograph, with what it is.
std::vector<std::pair<std::string, const PictureBox*>> boxes_of(const PhotographSaid& p) {
    std::vector<std::pair<std::string, const PictureBox*>> boxes;
    for (const SampleSpot& s : p.spots) boxes.emplace_back("sample " + rakelight::quoted(s.name), &s.box);
    for (const PictureBox& b : p.white_sheet) boxes.emplace_back("the white sheet", &b);
    if (p.white_card) boxes.emplace_back("the white card", &*p.white_card);
    if (p.black_card) boxes.emplace_back("the black card", &*p.black_card);
    return boxes;
}

void check_boxes(const PhotographSaid& p, ProblemList& problems) {
    const auto boxes = boxes_of(p);
    for (std::size_t i = 0; i < boxes.size(); ++i)
        for (std::size_t k = 0; k < i; ++k)
            if (overlap(*boxes[i].second, *boxes[k].second))
                problems.add(boxes[i].second->said.place, boxes[i].second->said.key,
                             fmt::format("found {} on {} of line {}, expected rectangles apart",
                                         boxes[i].first, boxes[k].first, boxes[k].second->said.place.line));
}

constexpr std::array<std::string_view, 3> kOverWords{"alone", "over white", "over black"};

void check_spots(const SampleFile& file, const PhotographSaid& p, ProblemList& problems) {
    std::vector<std::string> names;
    for (const SampleSaid& s : file.samples) names.push_back(s.name);
    std::set<std::pair<std::string, Over>> seen;
    for (const SampleSpot& s : p.spots) {
        const auto complain = [&](std::string text) {
            problems.add(s.box.said.place, s.box.said.key, std::move(text));
        };
        const SampleSaid* sample = find_sample(file, s.name);
        if (!sample) {
            complain("found " + rakelight::quoted(s.name) + ", expected a sample that `samples` describes" +
                     did_you_mean(s.name, names));
            continue;
        }
        if (!seen.insert({s.name, s.over}).second)
            complain(fmt::format("found a second {} {} in this picture, expected one",
                                 rakelight::quoted(s.name), kOverWords[static_cast<std::size_t>(s.over)]));
        if (s.over != Over::alone && sample->material.kind != Kind::glass)
            complain("found " + rakelight::quoted(s.name) +
                     " over a card, expected it alone: only glass lets light through");
    }
}

/// What all photographs together say of a sample.
void check_sample(const SampleFile& file, const SampleSaid& s, ProblemList& problems) {
    std::array<bool, 3> seen{};
    for (const PhotographSaid& p : file.photographs)
        for (const SampleSpot& spot : p.spots)
            if (spot.name == s.name) seen[static_cast<std::size_t>(spot.over)] = true;
    const auto complain = [&](std::string text) { problems.add(s.said.place, s.said.key, std::move(text)); };
    if (!seen[0] && !seen[1] && !seen[2]) complain("found it in no photograph, expected one at least");
    if (seen[0] && (seen[1] || seen[2]))
        complain("found it alone and over a card, expected alone for opaque, a card for translucent glass");
    if (seen[2] && !seen[1] && !seen[0])
        complain(
            "found it over black alone, expected it over white as well: black tells nothing of what it lets "
            "through");
    if ((seen[1] || seen[2]) && !s.has_thickness)
        complain(
            "found no thickness, expected one, as in thickness: 3 mm: translucent glass deepens with it");
}

}  // namespace

SampleFile read_sample_text(std::string_view text, const std::string& path) {
    const YamlValue root = parse_yaml(text, path);
    ProblemList problems(path);
    SampleFile file;
    file.path = path;
    Section in(root, "", sample_keys::file, problems);
    if (const YamlValue* date = in.find("date"); date && in.set(file.date, "date") && !parse_day(file.date))
        in.problem("date", "found " + rakelight::quoted(file.date) + ", expected a day, as in 2026-11-27");
    const bool listed = in.require("photographs", "a list of pictures") != nullptr;
    if (for_each_item(in, "photographs", [&](Section& p) { read_photograph(p, file); }) == 0 && listed &&
        problems.empty())
        in.problem("photographs", "found none, expected one picture at least");
    if (const YamlValue* entries = in.require("samples", "what the samples are")) {
        const Section section(*entries, in, "samples");
        for (const YamlMember& entry : entries->members) read_sample(entry, section, file);
    }
    in.finish();
    for (const PhotographSaid& p : file.photographs) {
        check_boxes(p, problems);
        check_spots(file, p, problems);
    }
    for (const SampleSaid& s : file.samples) check_sample(file, s, problems);
    problems.throw_if_any();
    return file;
}

SampleFile read_sample_file(const std::string& path) {
    return read_sample_text(layout_file_text(path), path);
}

}  // namespace rakelight
