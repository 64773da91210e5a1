#include "scene/read_fields.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "scene/defaults.h"
#include "scene/read_strokes.h"

namespace rakelight {
namespace {

using Shape = YamlValue::Shape;

constexpr Range kPieceSide_mm{0.5, 500};
constexpr size_t kMostMixed = 100;

// In the order of Opus.
const std::vector<std::string> kOpusWords{"regulatum", "tessellatum", "musivum", "vermiculatum",
                                          "palladianum"};

void read_piece(Section& in, Field& field) {
    const YamlValue* value = in.find("piece");
    if (!value) return;
    if (value->shape == Shape::scalar) {
        if (in.set(field.piece_length_mm, "piece", Quantity::length_mm, kPieceSide_mm))
            field.piece_width_mm = field.piece_length_mm;
        return;
    }
    glm::dvec2 size{field.piece_length_mm, field.piece_width_mm};
    in.set(size, "piece", Quantity::length_mm, kPieceSide_mm);
    field.piece_length_mm = size.x;
    field.piece_width_mm = size.y;
}

void read_shares(const YamlValue& mix, const std::string& path, Section& in, Field& field, Layout& layout,
                 const Shelf& stock) {
    if (mix.members.size() > kMostMixed) {
        in.problem("mix",
                   fmt::format("found {} materials, expected at most {}", mix.members.size(), kMostMixed));
        return;
    }
    Section shares(mix, path, in.problems());  // reports duplicates
    double sum = 0;
    bool good = true;
    for (const YamlMember& part : mix.members) {
        const std::string key = shares.path(part.key.text);
        MixPart mixed{part.key.text, 0};
        good &= use_material(part.key, key, mixed.material, stock, layout.stock, in.problems()) != nullptr;
        good &= read_number(mixed.share, part.value, key, Quantity::share, {0, 1}, in.problems());
        sum += mixed.share;
        if (mixed.share > 0) field.mix.push_back(mixed);
    }
    if (!good) return;
    if (std::abs(sum - 1) > kShareTolerance) {
        in.problems().add(mix, path,
                          fmt::format("found shares that sum to {:.6g} %, expected 100 %", 100 * sum));
        return;
    }
    for (MixPart& part : field.mix) part.share /= sum;
}

void read_mix(Section& in, Field& field, Layout& layout, const Shelf& stock) {
    const YamlValue* mix = in.require("mix", "a material, or materials with their shares");
    if (!mix) return;
    const std::string path = in.path("mix");
    if (mix->shape == Shape::scalar) {
        if (use_material(*mix, path, mix->text, stock, layout.stock, in.problems()))
            field.mix.push_back({mix->text, 1});
    } else if (mix->shape == Shape::mapping && !mix->members.empty()) {
        read_shares(*mix, path, in, field, layout, stock);
    } else {
        in.problem("mix", "found " + found(*mix) + ", expected a material, or materials with their shares");
    }
}

void read_grout(Section& in, Field& field, Layout& layout, const Shelf& tints) {
    field.bed = kUsualBed;
    set_material(in, field.bed, "bed", tints, layout.tints);
    field.grout = kUsualGrout;
    if (const YamlValue* grout = in.find("grout"); grout && grout->text == "none")
        field.grout.clear();
    else
        set_material(in, field.grout, "grout", tints, layout.tints);
    field.zone = field.grout.empty() ? "open" : field.grout;
    in.set(field.zone, "zone");
}

/// The outline's area on the panel; none when it is bad.
std::optional<double> read_outline(Section& in, Field& field, const Layout& layout) {
    const glm::dvec2 panel{layout.width_mm, layout.height_mm};
    const YamlValue* value = in.find("outline");
    if (!value) {
        field.outline = {{{0, 0}, {panel.x, 0}, panel, {0, panel.y}}, false, true, in.place()};
        return panel.x * panel.y;
    }
    auto outline = read_stroke(*value, in.path("outline"), true, false, in.problems());
    if (!outline) return std::nullopt;
    field.outline = std::move(*outline);
    return check_outline(field.outline, panel, in.path("outline"), in.problems());
}

void read_guides(Section& in, Field& field) {
    const YamlValue* guides = in.find("guides");
    if (!guides) return;
    if (guides->shape != Shape::list) {
        in.problem("guides", "found " + found(*guides) + ", expected a list of lines");
        return;
    }
    for (size_t i = 0; i < guides->items.size(); ++i) {
        const std::string key = fmt::format("{}[{}]", in.path("guides"), i + 1);
        if (auto guide = read_stroke(guides->items[i], key, false, true, in.problems())) {
            check_guide(*guide, key, in.problems());
            field.guides.push_back(std::move(*guide));
        }
    }
}

void read_measures(Section& in, Field& field) {
    in.set(field.joint_mm, "joint", Quantity::length_mm, {0, 50});
    in.set(field.angle_deg, "rows at", Quantity::angle_deg, {-360, 360});
    in.set(field.halo_rows, "halo", {0, 50});
    in.set(field.recess_mm, "recess", Quantity::length_mm, {0, 50});
    in.set(field.tilt_deg, "tilt", Quantity::angle_deg, {0, 30});
    in.set(field.lippage_mm, "lippage", Quantity::length_mm, {0, 20});
    in.set(field.thickness_mm, "thickness", Quantity::length_mm, {0.5, 100});
}

/// Grout below the back of a piece would leave it standing in the air.
void check_recess(Section& in, const Field& field, const Shelf& stock) {
    for (const MixPart& part : field.mix) {
        const Material* material = stock.find(part.material);
        if (!material) continue;
        const double thickness = field.thickness_mm > 0 ? field.thickness_mm : material->thickness_mm;
        if (field.recess_mm < thickness) continue;
        in.problem("recess", fmt::format("found {:.6g} mm, expected less than the {:.6g} mm that {} is thick",
                                         field.recess_mm, thickness, part.material));
        return;
    }
}

/// A zone is grouted in one go with one grout.
void check_zone(Section& in, const Field& field, const std::vector<Field>& before) {
    for (const Field& other : before) {
        if (other.zone != field.zone || other.grout == field.grout) continue;
        const auto name = [](const Field& f) { return f.grout.empty() ? "none" : f.grout; };
        in.problem("zone", fmt::format("found zone {} with grout {}, expected {} as in the field {}",
                                       field.zone, name(field), name(other), other.name));
        return;
    }
}

}  // namespace

void read_fields(Section& file, Layout& layout, const Shelf& stock, const Shelf& tints) {
    if (!file.require("fields", "a list with at least one field")) return;
    std::vector<std::string> names;
    double pieces = 0;
    const size_t count = for_each_item(file, "fields", [&](Section& in) {
        Field field;
        field.place = in.place();
        set_unique_name(in, field.name, names);
        size_t opus = static_cast<size_t>(field.opus);
        in.set_word(opus, "opus", kOpusWords);
        field.opus = static_cast<Opus>(opus);
        const std::optional<double> area = read_outline(in, field, layout);
        read_guides(in, field);
        read_piece(in, field);
        read_measures(in, field);
        read_mix(in, field, layout, stock);
        read_grout(in, field, layout, tints);
        check_recess(in, field, stock);
        check_zone(in, field, layout.fields);
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
