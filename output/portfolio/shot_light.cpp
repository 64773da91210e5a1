#include "output/portfolio/shot_light.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "output/portfolio/general_light.h"
#include "scene/light/with_light.h"
#include "scene/model/layout.h"
#include "scene/room/hung_panel.h"

namespace rakelight {

namespace {

constexpr double kOnPanel_lux = 300;

// A spot that puts `kOnPanel_lux` on the panel's middle: I = E d^2 / cos(incidence).
Lamp spot_on_panel(const char* name, const Layout& layout, const glm::dvec3& at_mm) {
    Lamp lamp;
    lamp.name = lamp.group = name;
    lamp.at_mm = at_mm;
    lamp.aim_mm = hung_panels(layout).front().centre_mm;
    const double away_mm = glm::distance(lamp.at_mm, lamp.aim_mm), metres = away_mm / 1000;
    lamp.candela = kOnPanel_lux * metres * metres / ((lamp.at_mm.z - lamp.aim_mm.z) / away_mm);
    const glm::dvec2 half = outer_half_mm(layout.panel, 0);
    lamp.beam_deg = std::clamp(glm::degrees(2 * std::atan(glm::length(half) / away_mm)), 15.0, 60.0);
    lamp.temperature_k = 3000;
    return lamp;
}

// Small and hard, above the viewer's left shoulder: what is tilted a little towards it flashes.
Lamp hard_lamp(const Layout& layout) {
    const Room& room = layout.room;
    const double up = std::min(room.height_mm - 120, layout.panel.centre_height_mm + 1150);
    Lamp lamp = spot_on_panel("hard lamp", layout,
                              {-0.6 * layout.panel.width_mm, up, std::min(1900.0, room.depth_mm / 2)});
    lamp.width_mm = 25;
    return lamp;
}

// From the side where no other panel hangs.
Lamp raking_lamp(const Layout& layout) {
    const bool from_right = layout.beside && layout.beside->on_left;
    const double side = from_right ? 1 : -1;
    const double reach = std::min(layout.panel.width_mm / 2 + 1200, layout.room.width_mm / 2 - 60);
    const glm::dvec3 middle = hung_panels(layout).front().centre_mm;
    Lamp lamp = spot_on_panel("raking lamp", layout,
                              {side * reach, middle.y + 0.25 * layout.panel.height_mm,
                               middle.z + reach * std::tan(glm::radians(kRaking_deg))});
    lamp.width_mm = 40;
    return lamp;
}

// Adds what lacks of the general light of a usual room, and says so.
void add_general_light(ShotLight& light, double wanted_lux, double temperature_k) {
    const double there = general_lux(light.layout);
    if (there > 0.8 * wanted_lux) return;
    light.layout.on.lamps.push_back(general_lamp(light.layout, wanted_lux - there, temperature_k));
    light.note += fmt::format(" and {:g} lx of general light at the wall", wanted_lux);
}

}  // namespace

ShotLight light_for(Shot shot, const Layout& layout, const Portfolio& portfolio) {
    constexpr double kInPlace_lux = 120, kInPlace_k = 3000, kAtDusk_lux = 50, kAtDusk_k = 2700;
    const auto named = portfolio.light.find(shot);
    const bool has_name = named != portfolio.light.end();
    if (has_name || (shot != Shot::sparkle && shot != Shot::raking)) {
        ShotLight light{has_name ? with_light(layout, named->second) : layout, ""};
        light.note = has_name                                                ? named->second
                     : layout.on.name.empty() || layout.on.name == kOwnLight ? "under the lamps of the place"
                                                                             : layout.on.name;
        const bool dusk = shot == Shot::dusk;
        const bool usual =
            dusk ? has_name && named->second == kUsualDusk : !has_name && light.layout.on.windows.empty();
        if ((dusk || shot == Shot::in_place) && !light.layout.on.all_round &&
            (usual || portfolio.general_lux))
            add_general_light(light, portfolio.general_lux.value_or(dusk ? kAtDusk_lux : kInPlace_lux),
                              dusk ? kAtDusk_k : kInPlace_k);
        return light;
    }
    const bool hard = shot == Shot::sparkle;
    ShotLight light{layout, hard ? "one small hard lamp from above"
                                 : fmt::format("one lamp along the face, {:g}° to it", kRaking_deg)};
    light.layout.on.lamps = {hard ? hard_lamp(layout) : raking_lamp(layout)};
    light.layout.on.windows.clear();
    light.layout.on.all_round.reset();
    return light;
}

}  // namespace rakelight
