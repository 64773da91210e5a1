#include "scene/reading/field/setting.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "scene/model/form_words.h"
#include "scene/model/layout.h"
#include "scene/opus/opera.h"
#include "scene/text/nearest_word.h"

namespace rakelight {
namespace {

// One way of setting a row: standard deviation of tilt per axis, its bound, that of lippage, its bound.
// Common practice, no published source.
struct Way {
    double tilt_deg, most_tilt_deg, lippage_mm, most_lippage_mm;
};
// In the order of the words of the key setting.
constexpr std::size_t kCatchingLight = 5;
constexpr std::array<Way, 6> kFigures{{
    {0.55, 0, 0.1, 0.3},  // face down on paper: flat
    {1.1, 0, 0.3, 0.8},   // sawn pieces levelled with a straightedge
    {2.2, 0, 0.5, 1.5},   // hand-cut fused glass, set direct
    {4.5, 12, 0.8, 2.5},  // broken face up
    {3.5, 0, 1, 3},       // split stone
    {4.5, 0, 0.7, 2},     // turned to catch the light
}};
constexpr double kUsualLean_deg = 10;

void read_lean(Section& in, Setting& setting, bool catching_light) {
    const YamlValue* value = in.find("lean towards");
    const bool by = in.has("lean by");
    double mean_deg = kUsualLean_deg;
    in.set(mean_deg, "lean by");
    if (!value) {
        if (by || catching_light)
            in.problem(by ? "lean by" : "setting",
                       std::string("found ") + (by ? "lean by" : "catching light") +
                           " without lean towards, expected a lamp, a viewpoint or a point to lean towards");
        return;
    }
    setting.lean.mean_deg = mean_deg;
    if (value->shape != YamlValue::Shape::mapping || value->members.empty()) {
        in.problem("lean towards",
                   "found " + found(*value) +
                       ", expected {lamp: NAME}, {viewpoint: NAME}, both, or {point: [x, y, z]}");
        return;
    }
    Section to(*value, in, "lean towards");
    const bool lamp = to.set(setting.lean.lamp, "lamp");
    const bool eye = to.set(setting.lean.viewpoint, "viewpoint");
    if (to.set(setting.lean.at_mm, "point") && (lamp || eye))
        to.problem("point", "found a point with a lamp or viewpoint, expected one or the other");
    to.finish();
}

}  // namespace

void read_setting(Section& in, Field& field) {
    Setting& setting = field.setting;
    size_t form = static_cast<size_t>(setting.form);
    if (in.set_word(form, "form"))
        setting.form = static_cast<PieceForm>(form);
    else
        setting.form = rule_of(field.opus).usual_form;
    size_t way = 0;
    const bool told = in.set_word(way, "setting");
    if (told) {
        const Way& w = kFigures[way];
        field.tilt_deg = w.tilt_deg;
        field.lippage_mm = w.lippage_mm;
        setting.most_tilt_deg = w.most_tilt_deg;
        setting.most_lippage_mm = w.most_lippage_mm;
    }
    // A figure of the artist's own comes without the bound of the usual one.
    if (in.set(field.tilt_deg, "tilt")) setting.most_tilt_deg = 0;
    if (in.set(field.lippage_mm, "lippage")) setting.most_lippage_mm = 0;
    in.set(setting.patch_mm, "tilt patch");
    if (double dome_mm = 0; in.set(dome_mm, "dome")) setting.dome_mm = dome_mm;
    read_lean(in, setting, told && way == kCatchingLight);
    if (in.set(field.fill, "fill") && in.has("recess"))
        in.problem("fill", "found fill and recess, expected one of them");
}

void check_leans(Section& file, const Layout& layout) {
    std::vector<Lamp> lamps;
    for (const Lighting& set_up : layout.set_ups)
        lamps.insert(lamps.end(), set_up.lamps.begin(), set_up.lamps.end());
    for (size_t f = 0; f < layout.fields.size(); ++f) {
        const Field& field = layout.fields[f];
        const auto check = [&](const std::string& name, const char* what, const auto& list) {
            std::vector<std::string> names;
            for (const auto& item : list) names.push_back(item.name);
            if (name.empty() || std::find(names.begin(), names.end(), name) != names.end()) return;
            file.problems().add(field.place, fmt::format("fields[{}].lean towards.{}", f + 1, what),
                                fmt::format("found {}, expected the name of a {}{}", quoted(name), what,
                                            did_you_mean(name, names)));
        };
        check(field.setting.lean.lamp, "lamp", lamps);
        check(field.setting.lean.viewpoint, "viewpoint", layout.views.viewpoints);
    }
}

}  // namespace rakelight
