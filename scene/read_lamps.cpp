#include "scene/read_lamps.h"

#include <fmt/format.h>

#include <algorithm>

#include "materials/illuminants.h"
#include "scene/defaults.h"
#include "scene/room_check.h"

namespace rakelight {
namespace {

constexpr Range kAnywhere_mm{-100'000, 100'000};
constexpr Range kLampSize_mm{1, 5'000};

// In the order of LampForm.
const std::vector<std::string> kForms{"spot", "bulb", "panel"};

void read_output(Section& in, Lamp& lamp) {
    const bool lumen = in.has("lumen"), candela = in.has("candela");
    if (lumen == candela)
        in.problem(lumen ? "candela" : "", lumen ? "found lumen and candela, expected one of them"
                                                 : "found neither lumen nor candela, expected one of them");
    in.set(lamp.lumen, "lumen", Quantity::flux_lm, {0.1, 1e6});
    in.set(lamp.candela, "candela", Quantity::intensity_cd, {0.1, 1e7});
    in.set(lamp.dimming, "dimming", Quantity::share, {0, 1});
}

void read_colour(Section& in, Lamp& lamp) {
    if (in.has("temperature") && in.has("illuminant"))
        in.problem("illuminant", "found temperature and illuminant, expected one of them");
    in.set(lamp.temperature_k, "temperature", Quantity::temperature_k, {1000, 25'000});
    const std::vector<std::string> names = illuminant_names();
    size_t index = 0;
    if (in.set_word(index, "illuminant", names)) lamp.illuminant = names[index];
}

void read_beam(Section& in, Lamp& lamp) {
    const auto only_for_spots = [&](std::string_view key) {
        if (in.has(key) && lamp.form != LampForm::spot)
            in.problem(key, fmt::format("found {} of a {}, expected it only of a spot", key,
                                        kForms[static_cast<size_t>(lamp.form)]));
    };
    in.set(lamp.beam_deg, "beam", Quantity::angle_deg, {2, 150});
    in.set(lamp.field_deg, "field", Quantity::angle_deg, {2, 175});
    only_for_spots("beam");
    only_for_spots("field");
    if (lamp.field_deg > 0 && lamp.field_deg <= lamp.beam_deg)
        in.problem("field", fmt::format("found {:.6g} deg, expected more than the beam of {:.6g} deg",
                                        lamp.field_deg, lamp.beam_deg));
}

void read_standing(Section& in, Lamp& lamp, const Layout& layout) {
    in.require("at", "the lamp's place [x, y, z] in the room");
    const bool placed = in.set(lamp.at_mm, "at", Quantity::length_mm, kAnywhere_mm);
    if (placed && layout.width_mm > 0)
        if (const std::string text = why_not_free(lamp.at_mm, layout); !text.empty()) in.problem("at", text);
    if (lamp.form == LampForm::bulb) {
        if (in.find("aim"))
            in.problem("aim",
                       "found aim of a bulb, expected it only of a spot or a panel: a bulb shines all round");
    } else {
        in.require("aim", "the point [x, y, z] the lamp is aimed at");
        if (in.set(lamp.aim_mm, "aim", Quantity::length_mm, kAnywhere_mm) && placed &&
            glm::distance(lamp.aim_mm, lamp.at_mm) < 1)
            in.problem("aim", "found the lamp's own place, expected a point away from it");
    }
    in.set(lamp.width_mm, "width", Quantity::length_mm, kLampSize_mm);
    const bool high = in.set(lamp.height_mm, "height", Quantity::length_mm, kLampSize_mm);
    if (!high) lamp.height_mm = lamp.width_mm;
    if (in.has("height") && lamp.form != LampForm::panel)
        in.problem("height", "found height of a round lamp, expected width alone: its diameter");
}

void add_usual_lamps(Section& file, Layout& layout) {
    if (layout.width_mm <= 0) return;  // reported with the panel
    layout.lamps = usual_lamps(layout);
    for (const Lamp& lamp : layout.lamps)
        if (const std::string text = why_not_free(lamp.at_mm, layout); !text.empty())
            file.problem("lamps", "the usual " + lamp.name + " does not fit here: " + text);
}

}  // namespace

void read_lamps(Section& file, Layout& layout) {
    if (!file.find("lamps")) return add_usual_lamps(file, layout);
    std::vector<std::string> names;
    const size_t count = for_each_item(file, "lamps", [&](Section& in) {
        Lamp lamp;
        lamp.place = in.place();
        set_unique_name(in, lamp.name, names);
        lamp.group = lamp.name;
        in.set(lamp.group, "group");
        size_t form = 0;
        in.set_word(form, "form", kForms);
        lamp.form = static_cast<LampForm>(form);
        read_output(in, lamp);
        read_beam(in, lamp);
        read_colour(in, lamp);
        read_standing(in, lamp, layout);
        layout.lamps.push_back(std::move(lamp));
    });
    if (const YamlValue* list = file.find("lamps");
        list && count == 0 && list->shape == YamlValue::Shape::list)
        file.problem("lamps", "found an empty list, expected at least one lamp");
}

}  // namespace rakelight
