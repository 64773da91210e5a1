#include "output/lay/drawing.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <filesystem>

#include "output/film/scene_hash.h"
#include "scene/forms/stone_body.h"
#include "scene/geometry/stroke.h"
#include "scene/laying/region_plan.h"
#include "scene/model/layout.h"
#include "scene/model/levels.h"

namespace rakelight {

namespace {

constexpr Rgb8 kBlack{0, 0, 0}, kWhite{255, 255, 255}, kGrey{110, 110, 110};
constexpr Rgb8 kGuide{214, 58, 38}, kOutline{20, 86, 190};
constexpr double kFlatness_mm = 0.05;

// Sheet, margins and type grow a little with the panel: a large one is looked at from further away.
struct Sheet {
    double type_mm;
    double margin_mm;
    OnSheet place;
    Tracing drawing;
};

EncodedSrgb ink_of(const Rgb8& c) {
    return from_bytes(c);
}

Sheet sheet_for(const Layout& layout, const LayingReport& report, const std::string& what) {
    Sheet sheet;
    const double side = std::max(layout.panel.width_mm, layout.panel.height_mm);
    sheet.type_mm = std::clamp(side / 220, 2.0, 12.0);
    sheet.margin_mm = 5 * sheet.type_mm;
    sheet.place = {glm::dvec2(sheet.margin_mm), layout.panel.height_mm, 1};
    Tracing& d = sheet.drawing;
    const double t = sheet.type_mm;
    d.title = layout.panel.name + ": " + what;
    d.note = sheet_facts(layout, report) + "; " + sheet_source(layout, report);
    const double foot = sheet.margin_mm + layout.panel.height_mm;
    std::vector<PageText> texts;
    texts.push_back(
        {layout.panel.name, {sheet.margin_mm, foot + 3.4 * t}, 1.7 * t, true, Align::left, ink_of(kBlack)});
    texts.push_back({what,
                     {sheet.margin_mm + width_mm(texts[0]) + 1.2 * t, foot + 3.4 * t},
                     1.2 * t,
                     false,
                     Align::left,
                     ink_of(kGrey)});
    texts.push_back({sheet_facts(layout, report),
                     {sheet.margin_mm, foot + 5.5 * t},
                     t,
                     false,
                     Align::left,
                     ink_of(kBlack)});
    texts.push_back({sheet_source(layout, report),
                     {sheet.margin_mm, foot + 7.2 * t},
                     0.85 * t,
                     false,
                     Align::left,
                     ink_of(kGrey)});
    double widest = 0;
    for (const PageText& text : texts)
        widest = std::max(widest, text.baseline_mm.x - sheet.margin_mm + width_mm(text));
    const double bar = std::min(100.0, std::max(10.0, layout.panel.width_mm / 5));
    d.size_mm = {std::max(layout.panel.width_mm, widest + bar + 6 * t) + 2 * sheet.margin_mm,
                 foot + 9 * t + 0.4 * sheet.margin_mm};
    d.layers.push_back({"sheet", {}, {}, std::move(texts), {}});
    add_scale_bar(d, {d.size_mm.x - sheet.margin_mm, foot + 3.4 * t}, 1, bar, t, layout.units);
    return sheet;
}

Rgb8 mixed(const Rgb8& a, const Rgb8& b, double share) {
    Rgb8 out{};
    for (std::size_t c = 0; c < 3; ++c)
        out[c] = static_cast<std::uint8_t>(std::lround((1 - share) * a[c] + share * b[c]));
    return out;
}

// Lines at a few heights over the ground, as on a map: what is proud shows as a hill.
std::vector<Ring> contours(const SetStone& set, const Material& material, double plane_mm) {
    const Mesh body = stone_body(set, material, 4);
    std::vector<Ring> rings;
    for (const double share : {0.3, 0.6, 0.85}) {
        const double level = plane_mm + share * (set.top_mm - plane_mm);
        std::vector<glm::dvec2> above;
        for (const auto& p : body.positions_mm)
            if (static_cast<double>(p.z) > level) above.emplace_back(glm::dvec2(p));
        if (above.size() >= 8) rings.push_back(simplified(convex_hull(std::move(above)), 0.1));
    }
    return rings;
}

void add_stones(Sheet& sheet, const Layout& layout, const Laying& laying, const std::vector<Rgb8>* colours) {
    const double plane = face_plane_mm(layout);
    TracedLayer ground{"stones", {kWhite, kBlack, 0.3, {}}, {}, {}, {}};
    std::vector<TracedLayer> hills;
    for (std::size_t i = 0; i < laying.stones.size(); ++i) {
        const SetStone& set = laying.stones[i];
        TracedShape shape = shape_of(set.footprint_mm, sheet.place);
        if (colours) shape.fill = (*colours)[i];
        shape.id = std::to_string(i + 1);
        ground.shapes.push_back(std::move(shape));
        Rgb8 line = kGrey;
        if (colours) {
            const Rgb8& c = (*colours)[i];
            const bool dark = 0.2126 * c[0] + 0.7152 * c[1] + 0.0722 * c[2] < 110;
            line = mixed(c, dark ? kWhite : kBlack, 0.3);
        }
        TracedLayer hill{fmt::format("height of stone {}", i + 1), {{}, line, 0.15, {}}, {}, {}, {}};
        for (const Ring& ring : contours(set, layout.stock[set.material], plane))
            hill.shapes.push_back(shape_of(ring, sheet.place));
        hills.push_back(std::move(hill));
    }
    if (ground.shapes.empty()) return;
    if (colours) ground.pen = {kWhite, kBlack, 0.12, {}};
    sheet.drawing.layers.push_back(std::move(ground));
    for (TracedLayer& hill : hills) sheet.drawing.layers.push_back(std::move(hill));
}

void add_pieces(Sheet& sheet, const std::vector<Field>& fields, const Laying& laying,
                const std::vector<Rgb8>* colours) {
    std::vector<TracedLayer> layers(fields.size());
    for (std::size_t f = 0; f < layers.size(); ++f) {
        layers[f].name = fields[f].name;
        layers[f].pen.fill = kWhite;
    }
    for (std::size_t i = 0; i < laying.pieces.size(); ++i) {
        const Piece& piece = laying.pieces[i];
        TracedShape shape = shape_of(piece.outline_mm, sheet.place);
        if (colours) shape.fill = (*colours)[i];
        shape.id = std::to_string(piece.number);
        layers[piece.field].shapes.push_back(std::move(shape));
    }
    for (TracedLayer& layer : layers) sheet.drawing.layers.push_back(std::move(layer));
}

// The key of faults goes below the sheet's foot, which grows by it.
void add_faults(Sheet& sheet, const LayingFaults& faults) {
    const double t = sheet.type_mm;
    auto layers = fault_layers(faults, sheet.place, t, {sheet.margin_mm, sheet.drawing.size_mm.y});
    sheet.drawing.size_mm.y += 1.6 * t * static_cast<double>(layers.back().texts.size()) + t;
    for (TracedLayer& layer : layers) sheet.drawing.layers.push_back(std::move(layer));
}

void add_overlays(Sheet& sheet, const Layout& layout, const Overlays& overlays) {
    const PageBox window{sheet.place.corner_mm, {layout.panel.width_mm, layout.panel.height_mm}, {}};
    const double width = std::max(0.35, sheet.type_mm / 6);
    const auto lines = [&](const std::string& name, const DrawnPen& pen, auto&& strokes_of) {
        TracedLayer layer{name, pen, {}, {}, window};
        for (const Field& field : layout.fields)
            for (const Stroke* stroke : strokes_of(field)) {
                TracedShape shape = shape_of(flatten(*stroke, kFlatness_mm), sheet.place);
                shape.closed = stroke->closed;
                layer.shapes.push_back(std::move(shape));
            }
        sheet.drawing.layers.push_back(std::move(layer));
    };
    const auto all = [](const std::vector<Stroke>& from, std::vector<const Stroke*> to = {}) {
        for (const Stroke& stroke : from) to.push_back(&stroke);
        return to;
    };
    if (overlays.outlines)
        lines("outlines", {{}, kOutline, width, {6 * width, 4 * width}},
              [&](const Field& field) { return all(field.more_rings, {&field.outline}); });
    if (!overlays.guides) return;
    lines("guides", {{}, kGuide, width, {}}, [&](const Field& field) { return all(field.guides); });
    lines("breaks", {{}, kGuide, width, {2 * width, 3 * width}},
          [&](const Field& field) { return all(field.breaks); });
}

void add_panel(Sheet& sheet, const Panel& panel, const std::string& name, const DrawnPen& pen) {
    TracedLayer layer{name, pen, {}, {}, {}};
    for (const Ring& ring : panel_region(panel).rings) layer.shapes.push_back(shape_of(ring, sheet.place));
    sheet.drawing.layers.push_back(std::move(layer));
}

}  // namespace

TracedShape shape_of(const Ring& ring, const OnSheet& place) {
    return {{place(ring)}, true, {}, ""};
}

TracedShape shape_of(const Region& region, const OnSheet& place) {
    TracedShape shape;
    for (const Ring& ring : region.rings) shape.lines_mm.push_back(place(ring));
    return shape;
}

std::string sheet_facts(const Layout& layout, const LayingReport& report) {
    std::size_t pieces = 0;
    for (const LaidField& field : report.fields) pieces += field.count;
    return fmt::format("{}, {} pieces{}, joints {:.1f} % of the face",
                       shown_size({layout.panel.width_mm, layout.panel.height_mm}, layout.units), pieces,
                       report.stone_count == 1  ? ", 1 stone"
                       : report.stone_count > 1 ? fmt::format(", {} stones", report.stone_count)
                                                : "",
                       100 * report.joint_share());
}

std::string sheet_source(const Layout& layout, const LayingReport& report) {
    const auto name = [](const std::string& path) { return std::filesystem::path(path).filename().string(); };
    return fmt::format("seed {}, {}{}, scene {}, {}", layout.panel.seed, name(layout.sources.path),
                       layout.pieces_file.empty() ? "" : " with " + name(layout.pieces_file),
                       hash_digits(report.scene_hash), report.program);
}

void add_scale_bar(Tracing& drawing, const glm::dvec2& right_mm, double scale, double wanted_mm,
                   double type_mm, Units units) {
    constexpr std::array kRound{1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0};
    constexpr std::array kRound_in{0.25, 0.5, 1.0, 2.0, 4.0, 6.0, 12.0, 24.0, 36.0, 48.0};
    double length = 0;
    for (std::size_t i = 0; i < kRound.size(); ++i) {
        const double round = units == Units::inches ? kInch_mm * kRound_in[i] : kRound[i];
        if (i == 0 || round * scale <= 1.0001 * wanted_mm) length = round;
    }
    const double from = right_mm.x - length * scale, y = right_mm.y, tall = 0.5 * type_mm;
    TracedLayer filled{"scale bar", {kBlack, kBlack, 0.15, {}}, {}, {}, {}};
    for (int part = 0; part < 5; ++part) {
        const double a = from + length * scale * part / 5, b = from + length * scale * (part + 1) / 5;
        filled.shapes.push_back(
            {{{{a, y - tall}, {b, y - tall}, {b, y}, {a, y}}}, true, part % 2 ? kWhite : kBlack, ""});
    }
    filled.texts.push_back(
        {"0", {from, y + 1.4 * type_mm}, 0.85 * type_mm, false, Align::left, ink_of(kBlack)});
    filled.texts.push_back({shown_length(length, units) + (scale == 1 ? ", 1:1" : ""),
                            {right_mm.x, y + 1.4 * type_mm},
                            0.85 * type_mm,
                            false,
                            Align::right,
                            ink_of(kBlack)});
    drawing.layers.push_back(std::move(filled));
}

Tracing colour_drawing(const Layout& layout, const Laying& laying, const LayingReport& report,
                       const Overlays& overlays) {
    Sheet sheet = sheet_for(layout, report, "as laid, colours in daylight (D65)");
    add_panel(sheet, layout.panel, "ground", {report.joint_colour.back(), {}, 0, {}});
    sheet.drawing.layers.push_back(joint_layer(layout, report, sheet.place));
    add_pieces(sheet, layout.fields, laying, &report.piece_colour);
    add_stones(sheet, layout, laying, &report.stone_colour);
    add_overlays(sheet, layout, overlays);
    add_panel(sheet, layout.panel, "edge", {{}, kBlack, 0.15, {}});
    if (overlays.faults) add_faults(sheet, *overlays.faults);
    if (overlays.names)
        sheet.drawing.layers.push_back(name_layer(layout.fields, report, sheet.place, sheet.type_mm));
    return std::move(sheet.drawing);
}

Tracing joint_drawing(const Layout& layout, const Laying& laying, const LayingReport& report,
                      const Overlays& overlays) {
    Sheet sheet = sheet_for(layout, report, "joints");
    add_panel(sheet, layout.panel, "joints", {kBlack, {}, 0, {}});
    add_pieces(sheet, layout.fields, laying, nullptr);
    add_stones(sheet, layout, laying, nullptr);
    add_overlays(sheet, layout, overlays);
    add_panel(sheet, layout.panel, "edge", {{}, kBlack, 0.25, {}});
    if (overlays.faults) add_faults(sheet, *overlays.faults);
    if (overlays.names)
        sheet.drawing.layers.push_back(name_layer(layout.fields, report, sheet.place, sheet.type_mm));
    return std::move(sheet.drawing);
}

}  // namespace rakelight
