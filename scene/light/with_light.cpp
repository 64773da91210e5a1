#include "scene/light/with_light.h"

#include <fmt/format.h>

#include <algorithm>

#include "materials/stock/stock.h"
#include "scene/light/known_set_ups.h"
#include "scene/room/furnishing_check.h"
#include "scene/room/room_check.h"
#include "scene/text/diagnostics.h"
#include "scene/text/nearest_word.h"
#include "scene/text/units.h"

namespace rakelight {
namespace {

LightSetUp own_light(const Layout& layout) {
    return {std::string(kOwnLight), layout.lamps, layout.room.windows, layout.daylight, {}};
}

const LightSetUp* find_set_up(const Layout& layout, std::string_view name) {
    const auto at = std::find_if(layout.set_ups.begin(), layout.set_ups.end(),
                                 [&](const LightSetUp& s) { return s.name == name; });
    return at == layout.set_ups.end() ? nullptr : &*at;
}

// Bars of a known set-up's windows may be of a paint that the layout has not used so far.
void add_bar_materials(Layout& layout) {
    for (const Window& window : layout.room.windows) {
        const auto is = [&](const Material& m) { return m.name == window.bar_material; };
        if (window.panes.x < 1 || std::any_of(layout.stock.begin(), layout.stock.end(), is)) continue;
        if (const Material* m = find_stock(window.bar_material)) layout.stock.push_back(*m);
    }
}

}  // namespace

std::vector<std::string> light_choices(const Layout& layout) {
    std::vector<std::string> names{std::string(kOwnLight)};
    const auto add = [&](std::string_view name) {
        if (std::find(names.begin(), names.end(), name) == names.end()) names.emplace_back(name);
    };
    for (const LightSetUp& set_up : layout.set_ups) add(set_up.name);
    for (const KnownSetUp& known : known_set_ups()) add(known.name);
    return names;
}

void put_light(Layout& layout, const LightSetUp& set_up) {
    layout.light = set_up.name;
    layout.lamps = set_up.lamps;
    layout.room.windows = set_up.windows;
    layout.daylight = set_up.daylight;
    add_bar_materials(layout);
}

LightSetUp set_up_called(const Layout& layout, std::string_view name) {
    if (const LightSetUp* own = find_set_up(layout, name)) return *own;
    if (name == kOwnLight) return own_light(layout);
    for (const KnownSetUp& known : known_set_ups())
        if (known.name == name) return make_set_up(known, layout);
    const std::vector<std::string> choices = light_choices(layout);
    throw LayoutError({layout.path, 0, 0}, "light",
                      fmt::format("found {}, expected one of {}{}", quoted(name), fmt::join(choices, ", "),
                                  did_you_mean(name, choices)));
}

std::string why_no_light(const Layout& layout) {
    if (layout.lamps.empty() && layout.room.windows.empty())
        return "found no lamp and no window, expected at least one of them";
    for (const Lamp& lamp : layout.lamps)
        if (const std::string text = why_not_free(lamp.at_mm, layout); !text.empty())
            return lamp.name + " does not fit here: " + text;
    Layout so_far;  // a window is checked against those before it
    so_far = layout;
    so_far.room.windows.clear();
    for (const Window& window : layout.room.windows) {
        if (const std::string text = why_no_window(window, so_far); !text.empty())
            return window.name + " does not fit here: " + text;
        so_far.room.windows.push_back(window);
    }
    return "";
}

Layout with_light(const Layout& layout, std::string_view name) {
    Layout lit = layout;
    if (lit.set_ups.empty()) lit.set_ups.push_back(own_light(layout));
    put_light(lit, set_up_called(layout, name));
    if (const std::string text = why_no_light(lit); !text.empty())
        throw LayoutError({layout.path, 0, 0}, "light", std::string(name) + ": " + text);
    return lit;
}

}  // namespace rakelight
