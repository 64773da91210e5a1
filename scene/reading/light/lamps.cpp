#include "scene/reading/light/lamps.h"

#include <fmt/format.h>

#include <algorithm>

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

namespace rakelight {
namespace {

void read_output(Section& in, Lamp& lamp) {
    const bool lumen = in.has("lumen"), candela = in.has("candela");
    if (lumen == candela && (lumen || !rule_of(lamp.form).by_file))
        in.problem(lumen ? "candela" : "", lumen ? "found lumen and candela, expected one of them"
                                                 : "found neither lumen nor candela, expected one of them");
    in.set(lamp.lumen, "lumen");
    in.set(lamp.candela, "candela");
    in.set(lamp.dimming, "dimming");
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
    in.set(lamp.beam_deg, "beam");
    in.set(lamp.field_deg, "field");
    only_for_beams("beam");
    only_for_beams("field");
    if (lamp.field_deg > 0 && lamp.field_deg <= lamp.beam_deg)
        in.problem("field", fmt::format("found {:.6g} deg, expected more than the beam of {:.6g} deg",
                                        lamp.field_deg, lamp.beam_deg));
    if (rule.is_strip && lamp.beam_deg == 0)
        for (const char* key : {"field", "faces"})
            if (in.has(key))
                in.problem(key,
                           fmt::format("found {} of a strip without a beam, expected `beam` as well", key));
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

void add_usual_lamps(Section& file, Layout& layout) {
    if (layout.panel.width_mm <= 0) return;  // reported with the panel
    layout.on.lamps = usual_lamps(layout);
    for (const Lamp& lamp : layout.on.lamps)
        if (const std::string text = why_not_free(lamp.at_mm, layout); !text.empty() && !chooses_light(file))
            file.problem("lamps", "the usual " + lamp.name + " does not fit here: " + text);
}

}  // namespace

void read_lamps(Section& file, Layout& layout) {
    if (!file.find("lamps")) return add_usual_lamps(file, layout);
    std::vector<std::string> names;
    for (const Window& window : layout.on.windows) names.push_back(window.name);
    if (!names.empty()) names.push_back(kSunName);
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
        layout.on.lamps.push_back(std::move(lamp));
    });
    if (const YamlValue* list = file.find("lamps"); list && count == 0 && layout.on.windows.empty() &&
                                                    !chooses_light(file) &&
                                                    list->shape == YamlValue::Shape::list)
        file.problem("lamps", "found an empty list, expected at least one lamp or window");
}

}  // namespace rakelight
