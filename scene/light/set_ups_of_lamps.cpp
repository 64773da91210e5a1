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

Lamp raking_spot(const Layout& layout, const glm::dvec3& at_mm) {
    return spot_on_work(layout, "raking light", at_mm, 200);
}

}  // namespace

Lighting gallery_spot(const Layout& layout) {
    const Room& room = layout.room;
    const double setback =
        gallery_setback_mm(room.height_mm, layout.panel.centre_height_mm, layout.panel.height_mm);
    const glm::dvec3 at = within_room_mm(room, {0, room.height_mm - kBelowCeiling_mm, setback});
    Lighting set_up;
    set_up.lamps = {spot_on_work(layout, "spot", at, 250), general_light(layout, 25)};
    return set_up;
}

Lighting pair_at_45(const Layout& layout) {
    const Room& room = layout.room;
    const glm::dvec3 centre = face_centre_mm(layout);
    const double diagonal = glm::length(glm::dvec2(layout.panel.width_mm, layout.panel.height_mm));
    // As far to the side as out, so the angle holds in a narrow room as well.
    const double away =
        std::min({std::max(1.75 * diagonal, 1500.0) * std::sqrt(0.5), room.width_mm / 2 - kBelowCeiling_mm,
                  room.depth_mm - centre.z - kBelowCeiling_mm});
    Lighting set_up;
    for (const double side : {-1.0, 1.0}) {
        Lamp lamp = spot_on_work(layout, side < 0 ? "left lamp" : "right lamp",
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
    Lamp lamp;
    lamp.name = lamp.group = "wall-washer";
    lamp.form = LampForm::strip;
    lamp.at_mm = within_room_mm(room, {0, room.height_mm - kBelowCeiling_mm, 0.4 * room.height_mm});
    lamp.aim_mm = face_centre_mm(layout);
    lamp.faces_mm = lamp.at_mm - glm::dvec3(0, room.height_mm / 2, 0);
    lamp.beam_deg = 60;
    lamp.width_mm =
        std::min(std::max(2 * layout.panel.width_mm, 1200.0), std::max(room.width_mm - 400, 300.0));
    lamp.height_mm = 60;
    lamp.temperature_k = 3500;
    lamp.candela = candela_for_lux(layout, lamp.at_mm, 250);
    Lighting set_up;
    set_up.lamps = {lamp};
    return set_up;
}

Lighting rake_from_top(const Layout& layout) {
    const glm::dvec3 centre = face_centre_mm(layout);
    const double reach = rake_reach_mm(outer_half_mm(layout.panel, layout.panel.lean_deg).y,
                                       layout.room.height_mm - kBelowCeiling_mm - centre.y);
    Lighting set_up;
    set_up.lamps = {raking_spot(layout, centre + glm::dvec3(0, reach, rake_out_mm(reach)))};
    return set_up;
}

Lighting rake_from_side(const Layout& layout) {
    const glm::dvec3 centre = face_centre_mm(layout);
    const double reach = rake_reach_mm(outer_half_mm(layout.panel, layout.panel.lean_deg).x,
                                       layout.room.width_mm / 2 - kBelowCeiling_mm);
    Lighting set_up;
    set_up.lamps = {raking_spot(layout, centre + glm::dvec3(-reach, 0, rake_out_mm(reach)))};
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
    lamp.at_mm = within_room_mm(
        layout.room,
        {outer_half_mm(layout.panel, layout.panel.lean_deg).x + kBeside_mm, kTable_mm + 300, kOut_mm});
    Lighting set_up;
    set_up.lamps = {lamp};
    return set_up;
}

}  // namespace rakelight
