#include "scene/light/set_ups_of_lamps.h"

#include <algorithm>
#include <cmath>

#include "scene/light/lamp_placing.h"
#include "scene/model/layout.h"
#include "scene/room/hung_panel.h"

namespace rakelight {
namespace {

constexpr double kBelowCeiling_mm = 100;  ///< a lamp on its track

// A matte panel on the ceiling over the middle of the room, so strong that the work gets `lux` from it
// directly: E = (flux / pi) cos(at the lamp) cos(at the work) / d^2.
Lamp general_light(const Layout& layout, double lux) {
    const Room& room = layout.room;
    Lamp lamp;
    lamp.name = lamp.group = "room light";
    lamp.form = LampForm::panel;
    lamp.at_mm = {0, room.height_mm - 10, room.depth_mm * 0.6};
    lamp.aim_mm = lamp.at_mm - glm::dvec3(0, room.height_mm / 2, 0);
    lamp.width_mm = std::min(1200.0, room.width_mm / 3);
    lamp.height_mm = lamp.width_mm / 2;
    lamp.temperature_k = 3500;
    const glm::dvec3 way = lamp.at_mm - face_centre_mm(layout);
    const double metres = glm::length(way) / 1000;
    const double cosines = std::max(way.y, 1.0) * way.z / glm::dot(way, way);
    lamp.candela = lux * metres * metres / cosines;
    return lamp;
}

// So far along the panel from its middle that light from `out_mm` before the faces falls on the middle at
// 10 degrees; beyond the panel's edge in any case.
double rake_reach_mm(double half_mm, double most_mm) {
    constexpr double kOut_mm = 200, kBeyondEdge_mm = 300;
    const double wanted = kOut_mm / std::tan(glm::radians(10.0));
    return std::min(std::max(wanted, half_mm + kBeyondEdge_mm), most_mm);
}

double rake_out_mm(double reach_mm) {
    return std::clamp(reach_mm * std::tan(glm::radians(10.0)), 150.0, 300.0);
}

// A lamp at the side of several panels stands further off by what they are wider than one: light falls off
// less across them.
double further_mm(const Layout& layout) {
    return all_hung(layout).outer_half_mm.x - each_hung(layout).front().outer_half_mm.x;
}

// The lamp of the first panel has the plain name; one beside it says so.
std::string name_of(const char* name, std::size_t panel) {
    return panel == 0 ? name : std::string(name) + " beside";
}

}  // namespace

Lighting gallery_spot(const Layout& layout) {
    const Room& room = layout.room;
    Lighting set_up;
    const std::vector<HungWork> works = each_hung(layout);
    for (std::size_t i = 0; i < works.size(); ++i) {
        const double setback =
            gallery_setback_mm(room.height_mm, layout.panel.centre_height_mm, works[i].size_mm.y);
        const glm::dvec3 at =
            within_room_mm(room, {works[i].centre_mm.x, room.height_mm - kBelowCeiling_mm, setback});
        set_up.lamps.push_back(spot_on_work(works[i], name_of("spot", i), at, 250));
        set_up.lamps.back().group = "spot";
    }
    set_up.lamps.push_back(general_light(layout, 25));
    return set_up;
}

Lighting pair_at_45(const Layout& layout) {
    const Room& room = layout.room;
    const HungWork work = all_hung(layout);
    const glm::dvec3 centre = work.centre_mm;
    const double diagonal = glm::length(work.size_mm);
    // As far to the side as out, so the angle holds in a narrow room as well.
    const double away = std::min({std::max(1.75 * diagonal, 1500.0) * std::sqrt(0.5),
                                  room.width_mm / 2 - kBelowCeiling_mm - std::abs(centre.x),
                                  room.depth_mm - centre.z - kBelowCeiling_mm});
    Lighting set_up;
    for (const double side : {-1.0, 1.0}) {
        Lamp lamp = spot_on_work(work, side < 0 ? "left lamp" : "right lamp",
                                 centre + glm::dvec3(side * away, 0, away), 200);
        lamp.group = "pair";
        lamp.width_mm = 150;
        lamp.temperature_k = 5000;
        set_up.lamps.push_back(lamp);
    }
    return set_up;
}

Lighting wash(const Layout& layout) {
    const Room& room = layout.room;
    const HungWork work = all_hung(layout);
    Lamp lamp;
    lamp.name = lamp.group = "wall-washer";
    lamp.form = LampForm::strip;
    lamp.at_mm =
        within_room_mm(room, {work.centre_mm.x, room.height_mm - kBelowCeiling_mm, 0.4 * room.height_mm});
    lamp.aim_mm = work.centre_mm;
    lamp.faces_mm = lamp.at_mm - glm::dvec3(0, room.height_mm / 2, 0);
    lamp.beam_deg = 60;
    lamp.width_mm = std::min(std::max(2 * work.size_mm.x, 1200.0),
                             std::max(room.width_mm - 400 - 2 * std::abs(work.centre_mm.x), 300.0));
    lamp.height_mm = 60;
    lamp.temperature_k = 3500;
    lamp.candela = candela_for_lux(work, lamp.at_mm, 250);
    Lighting set_up;
    set_up.lamps = {lamp};
    return set_up;
}

Lighting rake_from_top(const Layout& layout) {
    Lighting set_up;
    const std::vector<HungWork> works = each_hung(layout);
    for (std::size_t i = 0; i < works.size(); ++i) {
        const glm::dvec3 centre = works[i].centre_mm;
        const double reach =
            rake_reach_mm(works[i].outer_half_mm.y, layout.room.height_mm - kBelowCeiling_mm - centre.y);
        set_up.lamps.push_back(spot_on_work(works[i], name_of("raking light", i),
                                            centre + glm::dvec3(0, reach, rake_out_mm(reach)), 200));
        set_up.lamps.back().group = "raking light";
    }
    return set_up;
}

Lighting rake_from_side(const Layout& layout) {
    const HungWork work = all_hung(layout);
    const double reach = rake_reach_mm(work.outer_half_mm.x + further_mm(layout),
                                       layout.room.width_mm / 2 - kBelowCeiling_mm + work.centre_mm.x);
    Lighting set_up;
    set_up.lamps = {
        spot_on_work(work, "raking light", work.centre_mm + glm::dvec3(-reach, 0, rake_out_mm(reach)), 200)};
    return set_up;
}

Lighting evening_lamp(const Layout& layout) {
    constexpr double kTable_mm = 720, kBeside_mm = 270, kOut_mm = 300;
    Lamp lamp;
    lamp.name = lamp.group = "table lamp";
    lamp.form = LampForm::lantern;
    lamp.width_mm = 260;
    lamp.height_mm = 220;
    lamp.lumen = 450;
    lamp.temperature_k = 2700;
    // The shade stands 300 mm above its table.
    const HungWork work = all_hung(layout);
    lamp.at_mm = within_room_mm(layout.room, {work.centre_mm.x + work.outer_half_mm.x + kBeside_mm,
                                              kTable_mm + 300, kOut_mm + further_mm(layout)});
    Lighting set_up;
    set_up.lamps = {lamp};
    return set_up;
}

}  // namespace rakelight
