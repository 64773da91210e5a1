#include "scene/reading/field/opus.h"

#include <fmt/format.h>

#include "scene/model/opus_words.h"
#include "scene/opus/opus.h"
#include "scene/reading/field/shapes.h"

namespace rakelight {
namespace {

constexpr double kMostWedge_deg = 25;  // by hand nipper; common practice, no published source
constexpr int kUsualHalo = 2;
const std::vector<std::string> kSettings{"flat", "on edge"};
const std::vector<std::string> kForms{"chunk", "pebble"};

void warn(Layout& layout, Place place, std::string key, std::string text) {
    layout.warnings.push_back(to_string(Problem{std::move(place), std::move(key), std::move(text)}));
}

/// A key of another opus is not passed over in silence.
bool is_for(Section& in, const Field& field, std::string_view key, Opus opus) {
    if (!in.find(key)) return false;
    if (field.opus == opus) return true;
    in.problem(key, fmt::format("found it in a field of {}, expected it only in one of {}",
                                kOpera[static_cast<size_t>(field.opus)].name,
                                kOpera[static_cast<size_t>(opus)].name));
    return false;
}

void read_fan(Section& in, Field& field, Layout& layout) {
    if (is_for(in, field, "fan", Opus::fans))
        in.set(field.fan_radius_mm, "fan", Quantity::length_mm, {1, 20'000});
    if (field.opus != Opus::fans) return;
    const double radius = fan_radius_mm(field);
    const double wedge_deg = glm::degrees((field.piece_length_mm + field.joint_mm) / radius);
    if (wedge_deg > kMostWedge_deg) {
        in.problem("fan",
                   fmt::format("found arcs of {:.6g} mm, where a piece becomes a wedge of {:.0f} degrees, "
                               "expected at least {:.0f} mm for one of {:.0f}",
                               radius, wedge_deg,
                               (field.piece_length_mm + field.joint_mm) / glm::radians(kMostWedge_deg),
                               kMostWedge_deg));
    } else if (const double rows = radius / field.piece_width_mm; rows < 6 || rows > 15) {
        warn(layout, in.place(), in.path("fan"),
             fmt::format("found arcs of {:.6g} mm, {:.1f} times the width of a piece; 6 to 15 is usual",
                         radius, rows));
    }
}

void read_boulders(Section& in, Field& field, Layout& layout, const Shelf& stock) {
    const YamlValue* value = in.find("boulders");
    if (!value) return;
    Boulders& boulders = field.boulders;
    Section own(*value, in.path("boulders"), in.problems());
    if (own.require("material", "the name of a material"))
        set_material(own, boulders.material, "material", stock, layout.stock);
    if (own.require("count", "how many, 3 to 7 as a rule")) own.set(boulders.count, "count", {1, 200});
    if (own.set(boulders.size_mm, "size", Quantity::length_mm, {2, 1000}) &&
        boulders.size_mm.x > boulders.size_mm.y)
        own.problem("size", fmt::format("found [{:.6g}, {:.6g}] mm, expected the smallest first",
                                        boulders.size_mm.x, boulders.size_mm.y));
    own.set(boulders.proud, "proud", Quantity::share, {0.05, 0.8});
    size_t form = 0;
    if (own.set_word(form, "form", kForms)) boulders.form = kForms[form];
    own.finish();
    if (field.opus == Opus::sectile)
        in.problem("boulders",
                   "found it in a field of sectile, expected it where rows or stones part round "
                   "it; place the stone under stones and draw round it");
}

}  // namespace

void read_opus(Section& in, Field& field, Layout& layout, const Shelf& stock) {
    if (field.opus == Opus::classicum) {
        if (!in.has("halo"))
            field.halo_rows = kUsualHalo;
        else if (field.halo_rows < 1)
            in.problem("halo",
                       "found no halo rows in a field of classicum, expected 1 or more; without them "
                       "it is tessellatum");
    }
    if ((field.opus == Opus::sectile || field.opus == Opus::pebbles) && field.halo_rows > 0)
        in.problem("halo", fmt::format("found halo rows in a field of {}, which has no rows; lay them as a "
                                       "field of their own",
                                       kOpera[static_cast<size_t>(field.opus)].name));
    read_fan(in, field, layout);
    size_t set = 0;
    if (is_for(in, field, "set", Opus::pebbles) && in.set_word(set, "set", kSettings))
        field.on_edge = set == 1;
    if (is_for(in, field, "shapes", Opus::sectile))
        read_shapes(in, field, layout, stock);
    else if (field.opus == Opus::sectile)
        in.require("shapes", "the drawing: a list of outlines");
    read_boulders(in, field, layout, stock);
}

}  // namespace rakelight
