#include "scene/reading/field/fields.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "scene/keys/keys.h"
#include "scene/model/layout.h"
#include "scene/model/levels.h"
#include "scene/opus/opera.h"
#include "scene/reading/field/drawn_field.h"
#include "scene/reading/field/halo.h"
#include "scene/reading/field/mix.h"
#include "scene/reading/field/opus.h"
#include "scene/reading/field/setting.h"
#include "scene/reading/field/strokes.h"
#include "scene/room/defaults.h"

namespace rakelight {
namespace {

using Shape = YamlValue::Shape;

void read_piece(Section& in, Field& field) {
    const YamlValue* value = in.find("piece");
    if (!value) return;
    if (value->shape == Shape::scalar) {
        if (in.set(field.piece_length_mm, "piece")) field.piece_width_mm = field.piece_length_mm;
        return;
    }
    glm::dvec2 size{field.piece_length_mm, field.piece_width_mm};
    in.set(size, "piece");
    field.piece_length_mm = size.x;
    field.piece_width_mm = size.y;
}

void read_grout(Section& in, Field& field, Layout& layout, const Shelf& tints) {
    field.bed = set_material(in, "bed", kUsualBed, tints, layout.tints).value_or(0);
    if (const YamlValue* grout = in.find("grout"); !grout || grout->text != "none")
        field.grout = set_material(in, "grout", kUsualGrout, tints, layout.tints);
    field.zone = field.grout ? layout.tints[*field.grout].name : "open";
    in.set(field.zone, "zone");
}

/// The outline's area on the panel; none when it is bad.
std::optional<double> read_outline(Section& in, Field& field, const Layout& layout) {
    const glm::dvec2 panel{layout.panel.width_mm, layout.panel.height_mm};
    const YamlValue* value = in.find("outline");
    if (!value) {
        field.outline = {{{0, 0}, {panel.x, 0}, panel, {0, panel.y}}, false, true, in.place()};
        return panel.x * panel.y;
    }
    auto outline = read_stroke(*value, in.path("outline"), true, keys::outline, in.problems());
    if (!outline) return std::nullopt;
    field.outline = std::move(*outline);
    return check_outline(field.outline, panel, in.path("outline"), in.problems());
}

void read_lines(Section& in, const char* word, std::vector<Stroke>& lines, DrawnSheet& sheet) {
    const YamlValue* given = in.find(word);
    if (!given) return;
    if (given->shape != Shape::list) {
        in.problem(word, "found " + found(*given) + ", expected a list of lines");
        return;
    }
    for (size_t i = 0; i < given->items.size(); ++i) {
        const std::string key = fmt::format("{}[{}]", in.path(word), i + 1);
        if (take_drawn_lines(given->items[i], key, lines, sheet, in.problems())) continue;
        if (auto line = read_stroke(given->items[i], key, false, keys::guide, in.problems())) {
            check_guide(*line, key, in.problems());
            lines.push_back(std::move(*line));
        }
    }
}

/// Where rows run, and where they break.
void read_flow(Section& in, Field& field, DrawnSheet& sheet) {
    read_lines(in, "guides", field.guides, sheet);
    read_lines(in, "breaks", field.breaks, sheet);
    size_t rows = 0;
    in.set_word(rows, "rows");
    field.rows_across = rows == 1;
    const OpusRule& opus = rule_of(field.opus);
    size_t seam = 0;
    in.set_word(seam, "seam");
    field.mitred_seams = seam == 1;
    if (field.mitred_seams && !opus.led_by_guides)
        in.problem("seam",
                   fmt::format("found mitre in opus {}, expected {}, whose rows are led by guides", opus.word,
                               opera_that([](const OpusRule& o) { return o.led_by_guides; })));
    if (field.rows_across && !opus.led_by_guides)
        in.problem("rows",
                   fmt::format("found across in opus {}, expected {}, whose rows are led by guides",
                               opus.word, opera_that([](const OpusRule& o) { return o.led_by_guides; })));
    if (!field.breaks.empty() && !opus.takes_breaks)
        in.problem("breaks",
                   fmt::format("found breaks in opus {}, expected an opus laid in rows", opus.word));
}

void read_measures(Section& in, Field& field) {
    in.set(field.joint_mm, "joint");
    in.set(field.wash, "wash");
    in.set(field.angle_deg, "rows at");
    // A tight joint is washed out less: common practice, no published source.
    field.recess_mm = std::clamp(field.joint_mm, 0.3, 1.0);
    in.set(field.recess_mm, "recess");
    in.set(field.thickness_mm, "thickness");
    read_setting(in, field);
}

/// Grout below the back of a piece would leave it standing in the air.
void check_recess(Section& in, const Field& field, const std::vector<Material>& stock) {
    for (const MixPart& part : field.mix) {
        const Material& material = stock[part.material];
        const double thickness = piece_thickness_mm(field, material);
        if (field.recess_mm < thickness) continue;
        in.problem("recess", fmt::format("found {:.6g} mm, expected less than the {:.6g} mm that {} is thick",
                                         field.recess_mm, thickness, material.name));
        return;
    }
}

/// A zone is grouted in one go with one grout.
void check_zone(Section& in, const Field& field, const Layout& layout) {
    for (const Field& other : layout.fields) {
        if (other.zone != field.zone || other.grout == field.grout) continue;
        const auto name = [&](const Field& f) { return f.grout ? layout.tints[*f.grout].name : "none"; };
        in.problem("zone", fmt::format("found zone {} with grout {}, expected {} as in the field {}",
                                       field.zone, name(field), name(other), other.name));
        return;
    }
}

}  // namespace

void read_fields(Section& file, Layout& layout, const Shelf& stock, const Shelf& tints, DrawnSheet& sheet) {
    if (!file.require("fields", "a list with at least one field")) return;
    std::vector<std::string> names;
    const std::vector<std::string> all_names = names_of_fields(file);
    double pieces = 0;
    const size_t count = for_each_item(file, "fields", [&](Section& in) {
        Field field;
        field.place = in.place();
        set_unique_name(in, field.name, names);
        size_t opus = static_cast<size_t>(field.opus);
        in.set_word(opus, "opus");
        field.opus = static_cast<Opus>(opus);
        const DrawnGround drawn = take_drawn(in, field, layout, sheet);
        const std::optional<double> area = drawn.given ? drawn.area_mm2 : read_outline(in, field, layout);
        read_flow(in, field, sheet);
        if (area) warn_of_far_guides(in, field, layout);
        read_piece(in, field);
        read_measures(in, field);
        read_mix({in, field, layout, stock});
        read_grout(in, field, layout, tints);
        read_halo(in, field, all_names);
        read_opus(in, field, layout, stock);
        check_recess(in, field, layout.stock);
        check_zone(in, field, layout);
        if (area) {
            const double before = pieces;
            pieces +=
                *area / ((field.piece_length_mm + field.joint_mm) * (field.piece_width_mm + field.joint_mm));
            if (before <= kMostPieces && pieces > kMostPieces)
                in.problem("piece", fmt::format("found some {:.0f} pieces in all, expected at most {:.0f}",
                                                pieces, kMostPieces));
        }
        layout.fields.push_back(std::move(field));
    });
    if (const YamlValue* list = file.find("fields"); count == 0 && list->shape == Shape::list)
        file.problem("fields", "found an empty list, expected at least one field");
}

}  // namespace rakelight
