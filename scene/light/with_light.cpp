#include "scene/light/with_light.h"

#include <fmt/format.h>

#include <algorithm>
#include <span>

#include "materials/stock/stock.h"
#include "scene/light/known_set_ups.h"
#include "scene/model/layout.h"
#include "scene/room/defaults.h"
#include "scene/room/furnishing_check.h"
#include "scene/room/room_check.h"
#include "scene/text/diagnostics.h"
#include "scene/text/nearest_word.h"
#include "scene/text/units.h"

namespace rakelight {
namespace {

Lighting own_light(const Lighting& light) {
    Lighting own = light;
    own.name = kOwnLight;
    return own;
}

const Lighting* find_set_up(const std::vector<Lighting>& set_ups, std::string_view name) {
    const auto at =
        std::find_if(set_ups.begin(), set_ups.end(), [&](const Lighting& s) { return s.name == name; });
    return at == set_ups.end() ? nullptr : &*at;
}

// Bars of a known set-up's windows are of a paint that the layout may not have used so far.
void add_bar_materials(Layout& layout) {
    const auto usual = [](const Material& m) { return m.name == kUsualBars; };
    for (Window& window : layout.on.windows) {
        if (window.panes.x < 1 || window.bar_material) continue;
        const auto at = std::find_if(layout.stock.begin(), layout.stock.end(), usual);
        window.bar_material = static_cast<std::uint32_t>(at - layout.stock.begin());
        if (at == layout.stock.end()) layout.stock.push_back(*find_stock(kUsualBars));
    }
}

}  // namespace

std::vector<std::string> light_choices(const std::vector<Lighting>& set_ups) {
    std::vector<std::string> names{std::string(kOwnLight)};
    const auto add = [&](std::string_view name) {
        if (std::find(names.begin(), names.end(), name) == names.end()) names.emplace_back(name);
    };
    for (const Lighting& set_up : set_ups) add(set_up.name);
    for (const KnownSetUp& known : known_set_ups()) add(known.name);
    return names;
}

void put_light(Layout& layout, const Lighting& set_up) {
    layout.on = set_up;
    add_bar_materials(layout);
}

Lighting set_up_called(const Layout& layout, std::string_view name) {
    if (const Lighting* own = find_set_up(layout.set_ups, name)) return *own;
    if (name == kOwnLight) return own_light(layout.on);
    for (const KnownSetUp& known : known_set_ups())
        if (known.name == name) return make_set_up(known, layout);
    const std::vector<std::string> choices = light_choices(layout.set_ups);
    throw LayoutError({layout.sources.path, 0, 0}, "light",
                      fmt::format("found {}, expected one of {}{}", quoted(name), fmt::join(choices, ", "),
                                  did_you_mean(name, choices)));
}

std::string why_no_light(const Layout& layout) {
    if (layout.on.lamps.empty() && layout.on.windows.empty() && !layout.on.all_round)
        return "found no lamp and no window, expected at least one of them";
    for (const Lamp& lamp : layout.on.lamps)
        if (const std::string text = why_not_free(lamp.at_mm, layout); !text.empty())
            return lamp.name + " does not fit here: " + text;
    const std::span<const Window> windows = layout.on.windows;
    for (std::size_t i = 0; i < windows.size(); ++i)
        if (const std::string text = why_no_window(windows[i], layout, windows.first(i)); !text.empty())
            return windows[i].name + " does not fit here: " + text;
    return "";
}

Layout with_light(const Layout& layout, std::string_view name) {
    Layout lit = layout;
    if (lit.set_ups.empty()) lit.set_ups.push_back(own_light(layout.on));
    put_light(lit, set_up_called(layout, name));
    if (const std::string text = why_no_light(lit); !text.empty())
        throw LayoutError({layout.sources.path, 0, 0}, "light", std::string(name) + ": " + text);
    return lit;
}

}  // namespace rakelight
