#include "scene/reading/field/opus.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "scene/model/layout.h"
#include "scene/opus/opera.h"
#include "scene/opus/opus.h"
#include "scene/reading/field/shapes.h"

namespace rakelight {
namespace {

constexpr double kMostWedge_deg = 25;  // by hand nipper; common practice, no published source

void warn(Layout& layout, Place place, std::string key, std::string text) {
    layout.warnings.push_back(to_string(Problem{std::move(place), std::move(key), std::move(text)}));
}

/// What reading the own key of an opus needs.
struct OwnReading {
    Section& in;
    Field& field;
    Layout& layout;
    const Shelf& stock;
};

void read_fan(const OwnReading& own) {
    const auto& [in, field, layout, stock] = own;
    in.set(field.fan_radius_mm, "fan");
    const double radius = fan_radius_mm(field);
    const double wedge_deg = glm::degrees((field.piece_length_mm + field.joint_mm) / radius);
    if (wedge_deg > kMostWedge_deg) {
        in.problem("fan", fmt::format(
                              "found a radius of {:.6g} mm, where pieces taper by {:.0f} degrees, expected a "
                              "radius of at least {:.0f} mm, so that pieces taper by at most {:.0f} degrees",
                              radius, wedge_deg,
                              (field.piece_length_mm + field.joint_mm) / glm::radians(kMostWedge_deg),
                              kMostWedge_deg));
    } else if (const double rows = radius / field.piece_width_mm; rows < 6 || rows > 15) {
        warn(layout, in.place(), in.path("fan"),
             fmt::format("found arcs of {:.6g} mm, {:.1f} times the width of a piece; 6 to 15 is usual",
                         radius, rows));
    }
}

void read_set(const OwnReading& own) {
    size_t set = 0;
    if (own.in.set_word(set, "set")) own.field.on_edge = set == 1;
}

/// Beside it, `piece` is the mean: what most of the figures of a field go by.
void read_sizes(const OwnReading& own) {
    const auto& [in, field, layout, stock] = own;
    constexpr double kMostRatio = 5;
    glm::dvec2 sizes{0};
    if (!in.set(sizes, "sizes")) return;
    if (sizes.x > sizes.y)
        in.problem("sizes",
                   fmt::format("found [{:.6g}, {:.6g}] mm, expected the smallest first", sizes.x, sizes.y));
    else if (sizes.y > kMostRatio * sizes.x)
        in.problem(
            "sizes",
            fmt::format("found [{:.6g}, {:.6g}] mm, expected the largest at most {:.0f} times the smallest",
                        sizes.x, sizes.y, kMostRatio));
    if (in.has("piece")) in.problem("sizes", "found piece and sizes, expected one of them");
    field.sizes_mm = sizes;
    field.piece_length_mm = field.piece_width_mm =
        std::sqrt((sizes.x * sizes.x + sizes.x * sizes.y + sizes.y * sizes.y) / 3);
}

void read_drawn(const OwnReading& own) {
    if (own.in.require("shapes", "the drawing: a list of outlines"))
        read_shapes(own.in, own.field, own.layout, own.stock);
}

struct OwnKey {
    std::string_view key;
    void (*read)(const OwnReading&);
};
constexpr std::array kOwnKeys{OwnKey{"fan", read_fan}, OwnKey{"set", read_set}, OwnKey{"shapes", read_drawn},
                              OwnKey{"sizes", read_sizes}};

bool owns(const OpusRule& rule, std::string_view key) {
    return std::find(rule.own_keys.begin(), rule.own_keys.end(), key) != rule.own_keys.end();
}

/// A key of another opus is not passed over in silence.
void read_own_keys(const OwnReading& own) {
    const OpusRule& rule = rule_of(own.field.opus);
    for (const OwnKey& each : kOwnKeys)
        if (const bool given = own.in.find(each.key); owns(rule, each.key))
            each.read(own);
        else if (given)
            own.in.problem(
                each.key,
                fmt::format("found it in a field of {}, expected it only in one of {}", rule.word,
                            opera_that([&](const OpusRule& other) { return owns(other, each.key); })));
}

void read_boulders(Section& in, Field& field, Layout& layout, const Shelf& stock) {
    const YamlValue* value = in.find("boulders");
    if (!value) return;
    Boulders& boulders = field.boulders;
    Section own(*value, in, "boulders");
    if (own.require("material", "the name of a material"))
        boulders.material = set_material(own, "material", "", stock, layout.stock).value_or(0);
    if (own.require("count", "how many, 3 to 7 as a rule")) own.set(boulders.count, "count");
    if (own.set(boulders.size_mm, "size") && boulders.size_mm.x > boulders.size_mm.y)
        own.problem("size", fmt::format("found [{:.6g}, {:.6g}] mm, expected the smallest first",
                                        boulders.size_mm.x, boulders.size_mm.y));
    own.set(boulders.proud, "proud share");
    size_t form = 0;
    if (own.set_word(form, "form")) boulders.form = words_of(own.table(), "form")[form];
    own.finish();
    if (const OpusRule& rule = rule_of(field.opus); rule.drawn)
        in.problem("boulders", fmt::format("found it in a field of {}, expected it where rows or stones part "
                                           "round it; place the stone under stones and draw round it",
                                           rule.word));
}

}  // namespace

void read_opus(Section& in, Field& field, Layout& layout, const Shelf& stock) {
    read_own_keys({in, field, layout, stock});
    read_boulders(in, field, layout, stock);
    if (field.opus == Opus::beads && field.piece_length_mm != field.piece_width_mm)
        in.problem(
            "piece",
            fmt::format("found [{:g}, {:g}] mm in a field of beads, expected one length: they are round",
                        field.piece_length_mm, field.piece_width_mm));
}

}  // namespace rakelight
