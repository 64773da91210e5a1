#include "scene/reading/light/set_ups.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "scene/light/known_set_ups.h"
#include "scene/light/with_light.h"
#include "scene/model/layout.h"
#include "scene/reading/light/all_round.h"
#include "scene/reading/light/daylight.h"
#include "scene/reading/light/furnishing.h"
#include "scene/reading/light/lamps.h"
#include "scene/text/nearest_word.h"

namespace rakelight {
namespace {

Lighting light_that_is_on(const Lighting& light, std::string name, Place place) {
    return {std::move(name), light.lamps, light.windows, light.daylight, light.all_round, std::move(place)};
}

void read_set_up(Section& in, const std::string& name, Layout& layout, const Shelf& stock) {
    put_light(layout, layout.set_ups.front());
    read_windows(in, layout, stock);
    read_all_round(in, layout);
    read_daylight(in, layout);
    if (in.find("lamps")) {
        layout.on.lamps.clear();
        read_lamps(in, layout);
    }
    in.finish();
    if (in.value().members.empty())
        in.problem("", "found nothing in it, expected lamps, windows, daylight or light all round");
    layout.set_ups.push_back(light_that_is_on(layout.on, name, in.place()));
}

bool is_known(std::string_view name) {
    const auto known = known_set_ups();
    return name == kOwnLight ||
           std::any_of(known.begin(), known.end(), [&](const KnownSetUp& k) { return k.name == name; });
}

void read_definitions(Section& file, Layout& layout, const Shelf& stock) {
    const YamlValue* all = file.find("set-ups");
    if (!all) return;
    Section names(*all, file, "set-ups");
    if (all->members.size() > kMostSetUps) {
        file.problem("set-ups",
                     fmt::format("found {} set-ups, expected at most {}", all->members.size(), kMostSetUps));
        return;
    }
    for (const YamlMember& member : all->members) {
        const std::string& name = member.key.text;
        if (is_known(name))
            file.problems().add(member.key, names.path(name),
                                "found the name of a set-up there is, expected another name");
        Section in(member.value, names, name);
        if (member.value.shape == YamlValue::Shape::mapping) read_set_up(in, name, layout, stock);
    }
}

void read_shown(Section& file, Layout& layout) {
    const YamlValue* value = file.find("light");
    if (!value) return;
    const bool several = value->shape == YamlValue::Shape::list;
    if (several && value->items.empty())
        file.problem("light", "found an empty list, expected the name of a set-up");
    else if (several && value->items.size() > kMostSetUps)
        file.problem("light", fmt::format("found {}, expected at most {}", found(*value), kMostSetUps));
    else if (several)
        for (const YamlValue& item : value->items) {
            const Lighting* set_up = use_set_up(item, file.path("light"), layout, file.problems());
            if (!set_up) continue;
            if (std::find(layout.lights.begin(), layout.lights.end(), set_up->name) != layout.lights.end())
                file.problems().add(item, file.path("light"), "found " + quoted(set_up->name) + " again");
            else
                layout.lights.push_back(set_up->name);
        }
    else if (const Lighting* set_up = use_set_up(*value, file.path("light"), layout, file.problems()))
        layout.lights = {set_up->name};
}

}  // namespace

const Lighting* use_set_up(const YamlValue& value, const std::string& key, Layout& layout,
                           ProblemList& problems) {
    const std::vector<std::string> choices = light_choices(layout.set_ups);
    if (value.shape != YamlValue::Shape::scalar ||
        std::find(choices.begin(), choices.end(), value.text) == choices.end()) {
        problems.add(value, key,
                     fmt::format("found {}, expected one of {}{}", found(value), fmt::join(choices, ", "),
                                 did_you_mean(value.text, choices)));
        return nullptr;
    }
    const auto called = [&](const Lighting& s) { return s.name == value.text; };
    const auto& all = layout.set_ups;
    const bool fresh = std::none_of(all.begin(), all.end(), called);
    if (fresh && layout.panel.width_mm <= 0) return nullptr;  // reported with the panel
    Lighting set_up = set_up_called(layout, value.text);
    Layout lit = layout;
    put_light(lit, set_up);
    if (fresh || set_up.name == kOwnLight)  // what the file defines has been checked where it stands
        if (const std::string text = why_no_light(lit); !text.empty()) {
            problems.add(value, key, set_up.name + ": " + text);
            return nullptr;
        }
    if (fresh) {
        layout.stock = std::move(lit.stock);  // with what its windows are made of
        layout.set_ups.push_back(std::move(set_up));
    }
    return &*std::find_if(all.begin(), all.end(), called);
}

void read_set_ups(Section& file, Layout& layout, const Shelf& stock) {
    layout.set_ups = {light_that_is_on(layout.on, std::string(kOwnLight), file.place())};
    read_definitions(file, layout, stock);
    read_shown(file, layout);
    if (layout.lights.empty()) layout.lights = {std::string(kOwnLight)};
    put_light(layout, set_up_called(layout, layout.lights.front()));
}

}  // namespace rakelight
