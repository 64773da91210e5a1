#include "scene/reading/light/lamps.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "materials/colour/illuminants.h"
#include "scene/keys/keys.h"
#include "scene/light/lamp_forms.h"
#include "scene/light/strip_lobe.h"
#include "scene/light/window_light.h"
#include "scene/model/layout.h"
#include "scene/reading/light/lamp_light.h"
#include "scene/room/defaults.h"
#include "scene/room/panel_frame.h"
#include "scene/room/room_check.h"
#include "scene/text/word_list.h"

namespace rakelight {
namespace {

void read_output(Section& in, Lamp& lamp) {
    const bool lumen = in.has("lumen"), candela = in.has("candela");
    if (lumen == candela && (lumen || !rule_of(lamp.form).by_file))
        in.problem(lumen ? "candela" : "", lumen ? "found lumen and candela, expected one of them"
                                                 : "found neither lumen nor candela, expected one of them");
    in.set(lamp.lumen, "lumen");
    in.set(lamp.candela, "candela");
    in.set(lamp.dimming, "dimmed to");
}

void read_colour(Section& in, Lamp& lamp) {
    if (in.has("temperature") && in.has("illuminant"))
        in.problem("illuminant", "found temperature and illuminant, expected one of them");
    in.set(lamp.temperature_k, "temperature");
    size_t index = 0;
    if (in.set_word(index, "illuminant")) lamp.illuminant = illuminant_names()[index];
}

void read_beam(Section& in, Lamp& lamp) {
    const LampFormRule& rule = rule_of(lamp.form);
    const auto only_for_beams = [&](std::string_view key) {
        if (in.has(key) && !rule.takes_beam)
            in.problem(key, fmt::format("found {} of a {}, expected it only of a {}", key, rule.word,
                                        lamp_forms_that(&LampFormRule::takes_beam)));
    };
    if (rule.is_strip) lamp.beam_deg = 0;
    in.set(lamp.beam_deg, "beam angle");
    in.set(lamp.field_deg, "field angle");
    only_for_beams("beam angle");
    only_for_beams("field angle");
    if (lamp.field_deg > 0 && lamp.field_deg <= lamp.beam_deg)
        in.problem("field angle",
                   fmt::format("found {:.6g} deg, expected more than the beam angle of {:.6g} deg",
                               lamp.field_deg, lamp.beam_deg));
    if (rule.is_strip && lamp.beam_deg == 0)
        for (const char* key : {"field angle", "faces"})
            if (in.has(key))
                in.problem(
                    key,
                    fmt::format("found {} of a strip without a beam, expected `beam angle` as well", key));
}

void read_size(Section& in, Lamp& lamp) {
    const LampFormRule& rule = rule_of(lamp.form);
    const LampSize &width = rule.width, &height = rule.height;
    if (width.usual_mm > 0) lamp.width_mm = width.usual_mm;
    in.set(lamp.width_mm, width.key);
    if (width.required) in.require(width.key, width.meaning);
    lamp.height_mm = height.usual_mm > 0 ? height.usual_mm : lamp.width_mm;
    if (!height.key.empty())
        in.set(lamp.height_mm, height.key);
    else if (in.find("height"))
        in.problem("height", fmt::format("found height of a {}, expected {} alone: {}", rule.word, width.key,
                                         width.meaning));
}

// A picture light reaches out over the top of the work and looks down on it, in breadth somewhat less than
// the work. Common practice, no published source.
void place_over_work(Lamp& lamp, const Panel& panel) {
    constexpr double kAbove_mm = 80, kOut_mm = 200, kShare = 0.6;
    lamp.aim_mm = panel_centre_mm(panel);
    lamp.at_mm = lamp.aim_mm + glm::dvec3(0, outer_half_mm(panel, 0).y + kAbove_mm, kOut_mm);
    lamp.width_mm = std::clamp(kShare * panel.width_mm, 100.0, 1500.0);
}

// Where a strip's opening looks when its beam goes elsewhere.
void read_facing(Section& in, Lamp& lamp) {
    glm::dvec3 faces{};
    if (!in.set(faces, "faces")) return;
    lamp.faces_mm = faces;
    if (const LampFormRule& rule = rule_of(lamp.form); !rule.is_strip)
        in.problem("faces", fmt::format("found faces of a {}, expected it only of a {}", rule.word,
                                        lamp_forms_that(&LampFormRule::is_strip)));
    else if (in.has("turn"))
        in.problem("turn",
                   "found turn and faces, expected one of them: beam and face say how the strip lies");
    else if (!(glm::distance(faces, lamp.at_mm) >= 1) || !(glm::distance(lamp.aim_mm, lamp.at_mm) >= 1))
        in.problem("faces", "found the lamp's own place, expected a point away from it");
    else if (slant_deg(lamp) > 75)
        in.problem("faces",
                   fmt::format("found a beam {:.3g} deg aside from where the strip faces, expected at "
                               "most 75",
                               slant_deg(lamp)));
}

void read_standing(Section& in, Lamp& lamp, const Layout& layout) {
    const LampFormRule& rule = rule_of(lamp.form);
    const bool usual = rule.over_work;
    if (!usual) in.require("at", "the lamp's place [x, y, z] in the room");
    const bool placed = in.set(lamp.at_mm, "at") || (usual && !in.has("at"));
    if (placed && layout.panel.width_mm > 0)
        if (const std::string text = why_not_free(lamp.at_mm, layout); !text.empty()) in.problem("at", text);
    if (!rule.faces_one_way) {
        for (const char* key : {"aim", "turn"})
            if (in.find(key))
                in.problem(key,
                           fmt::format("found {} of a {}, expected it only of a lamp that faces one way: "
                                       "this one shines all round",
                                       key, rule.word));
    } else {
        if (!usual) in.require("aim", "the point [x, y, z] the lamp is aimed at");
        if (in.set(lamp.aim_mm, "aim") && placed && glm::distance(lamp.aim_mm, lamp.at_mm) < 1)
            in.problem("aim", "found the lamp's own place, expected a point away from it");
    }
    in.set(lamp.turn_deg, "turn");
    read_facing(in, lamp);
}

// Of the file itself, not of a set-up: it may show set-ups only.
bool chooses_light(const Section& file) {
    return &file.table() == &keys::layout && file.has("light");
}

// How far off its axis a lamp still has a tenth of its centre beam (the field angle of lighting practice),
// where it has the cosine power of its beam unless told.
double half_field_deg(const Lamp& lamp) {
    if (lamp.field_deg > 0) return lamp.field_deg / 2;
    const double power = std::log(0.5) / std::log(std::cos(glm::radians(lamp.beam_deg / 2)));
    return glm::degrees(std::acos(std::pow(0.1, 1 / power)));
}

// The smallest angle between a lamp's axis and any point of the panel's face, at a grid and where the axis
// meets it.
double off_axis_deg(const Lamp& lamp, const PanelFrame& panel) {
    constexpr int kSteps = 32;
    const glm::dvec3 axis = glm::normalize(lamp.aim_mm - lamp.at_mm);
    const glm::dvec3 at = panel.to_panel_mm(lamp.at_mm), along = panel.to_panel(axis);
    const glm::dvec2 size = 2.0 * panel.half_mm;
    if (along.z < 0 && at.z > 0) {
        const glm::dvec2 met = glm::dvec2(at - along * (at.z / along.z));
        if (glm::clamp(met, glm::dvec2(0), size) == met) return 0;
    }
    double least = 180;
    for (int x = 0; x <= kSteps; ++x)
        for (int y = 0; y <= kSteps; ++y) {
            const glm::dvec3 to = glm::dvec3(size * glm::dvec2(x, y) / double(kSteps), 0) - at;
            const double cosine = glm::dot(glm::normalize(to), along);
            least = std::min(least, glm::degrees(std::acos(glm::clamp(cosine, -1.0, 1.0))));
        }
    return least;
}

// Nothing is wrong with a lamp that lights something else, but it is seldom meant.
void warn_of_miss(const Section& in, const Lamp& lamp, Layout& layout) {
    const LampFormRule& rule = rule_of(lamp.form);
    if (!rule.takes_beam || rule.is_strip || layout.panel.width_mm <= 0) return;
    if (!(glm::distance(lamp.aim_mm, lamp.at_mm) >= 1)) return;
    const PanelFrame panel = panel_frame(layout.panel);
    const double off = off_axis_deg(lamp, panel), half = half_field_deg(lamp);
    if (off <= half) return;
    const glm::dvec3 centre = panel.centre_mm;
    layout.warnings.push_back(to_string(Problem{
        lamp.place, in.path("aim"),
        fmt::format(
            "found a lamp that passes by the panel: its light has fallen to a tenth {:.0f} degrees off its "
            "axis, and the nearest of the panel is {:.0f} degrees off; [{:.0f}, {:.0f}, {:.0f}] is the "
            "panel's middle",
            half, off, centre.x, centre.y, centre.z)}));
}

// A lamp again and again in columns across the room and rows out from the wall, level, all aimed alike; `at`
// is the middle of them. Each has its number after its name, row by row from the left, the row at the wall
// first.
std::vector<Lamp> in_grid(Section& in, const Lamp& lamp, std::vector<std::string>& names,
                          const Layout& layout) {
    const YamlValue* grid = in.find("grid");
    if (!grid) {
        if (in.find("apart")) in.problem("apart", "found it without grid, expected both, as grid: [3, 2]");
        return {lamp};
    }
    glm::dvec2 count{}, apart_mm{};
    const bool counted = in.set(count, "grid");
    in.require("apart", "how far apart the lamps of the grid are, across and out from the wall");
    if (!in.set(apart_mm, "apart") || !counted) return {lamp};
    if (count != glm::floor(count)) {
        in.problem("grid", fmt::format("found {:g} by {:g}, expected whole numbers", count.x, count.y));
        return {lamp};
    }
    std::vector<Lamp> all;
    for (int row = 0; row < static_cast<int>(count.y); ++row)
        for (int column = 0; column < static_cast<int>(count.x); ++column) {
            Lamp one = lamp;
            one.name = fmt::format("{} {}", lamp.name, all.size() + 1);
            const glm::dvec2 off = (glm::dvec2(column, row) - (count - 1.0) / 2.0) * apart_mm;
            const glm::dvec3 moved{off.x, 0, off.y};
            one.at_mm += moved;
            one.aim_mm += moved;
            if (one.faces_mm) *one.faces_mm += moved;
            if (holds(names, one.name))
                in.problem("grid",
                           fmt::format("found {} again, a lamp of this grid, expected a name of its own",
                                       rakelight::quoted(one.name)));
            names.push_back(one.name);
            if (const std::string text = why_not_free(one.at_mm, layout); !text.empty()) {
                in.problem("grid", one.name + ": " + text);
                return {lamp};
            }
            all.push_back(std::move(one));
        }
    return all;
}

void add_usual_lamps(Section& file, Layout& layout) {
    if (layout.panel.width_mm <= 0) return;  // reported with the panel
    layout.on.lamps = usual_lamps(layout);
    for (const Lamp& lamp : layout.on.lamps)
        if (const std::string text = why_not_free(lamp.at_mm, layout); !text.empty() && !chooses_light(file))
            file.problem("lamps", "the usual " + lamp.name + " does not fit here: " + text);
}

}  // namespace

void read_lamps(Section& file, Layout& layout) {
    if (!file.find("lamps")) {
        if (!layout.on.all_round) add_usual_lamps(file, layout);
        return;
    }
    std::vector<std::string> names;
    for (const Window& window : layout.on.windows) names.push_back(window.name);
    if (!names.empty()) names.push_back(kSunName);
    if (layout.on.all_round) names.push_back(layout.on.all_round->name);
    PhotometricShelf measured;
    const size_t count = for_each_item(file, "lamps", [&](Section& in) {
        Lamp lamp;
        lamp.place = in.place();
        set_unique_name(in, lamp.name, names);
        lamp.group = lamp.name;
        in.set(lamp.group, "group");
        size_t form = 0;
        in.set_word(form, "form");
        lamp.form = lamp_form_of_word(form);
        if (rule_of(lamp.form).over_work) place_over_work(lamp, layout.panel);
        read_photometry(in, lamp, layout, measured);
        read_output(in, lamp);
        read_beam(in, lamp);
        read_colour(in, lamp);
        read_own_spectrum(in, lamp, layout);
        read_size(in, lamp);
        read_fittings(in, lamp);
        read_standing(in, lamp, layout);
        for (Lamp& one : in_grid(in, lamp, names, layout)) {
            warn_of_miss(in, one, layout);
            layout.on.lamps.push_back(std::move(one));
        }
        if (layout.on.lamps.size() > kMostItems)
            in.problem("grid", fmt::format("found {} lamps by now, expected at most {}",
                                           layout.on.lamps.size(), kMostItems));
    });
    if (const YamlValue* list = file.find("lamps"); list && count == 0 && layout.on.windows.empty() &&
                                                    !layout.on.all_round && !chooses_light(file) &&
                                                    list->shape == YamlValue::Shape::list)
        file.problem("lamps", "found an empty list, expected at least one lamp or window");
}

}  // namespace rakelight
