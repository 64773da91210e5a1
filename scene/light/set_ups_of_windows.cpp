#include "scene/light/set_ups_of_windows.h"

#include <algorithm>
#include <cmath>

#include "scene/light/lamp_placing.h"
#include "scene/light/set_ups_of_lamps.h"
#include "scene/light/sun_position.h"
#include "scene/light/with_light.h"
#include "scene/model/layout.h"
#include "scene/room/defaults.h"
#include "scene/room/room_face.h"

namespace rakelight {
namespace {

constexpr CalendarDay kEquinox{2026, 3, 20};
constexpr double kLatitude_deg = 45;

std::vector<Window> own_windows(const Layout& layout) {
    return layout.set_ups.empty() ? layout.on.windows : set_up_called(layout, kOwnLight).windows;
}

Window glazed(std::string name, RoomFace wall, const glm::dvec2& at_mm, const glm::dvec2& size_mm,
              const glm::ivec2& panes) {
    Window window;
    window.name = window.group = std::move(name);
    window.wall = wall;
    window.at_mm = at_mm;
    window.size_mm = size_mm;
    window.panes = panes;
    window.bar_mm = 50;
    return window;
}

// From a sill at 850 mm up to 250 mm below the ceiling, or what a low room allows.
double upright_mm(const Room& room, double most_mm) {
    return std::clamp(room.height_mm - 1100, 300.0, most_mm);
}
double sill_mm(const Room& room) {
    return std::min(850.0, room.height_mm * 0.3);
}

// In the left wall, nearer the panel than the viewer.
Window side_window(const Room& room, const glm::dvec2& most_mm) {
    const double width = std::min(most_mm.x, room.depth_mm * 0.45);
    return glazed("side window", RoomFace::left,
                  {std::min(300 + width / 2, room.depth_mm / 2), sill_mm(room)},
                  {width, upright_mm(room, most_mm.y)}, {2, 3});
}

Window far_window(const Room& room) {
    return glazed("window behind", RoomFace::opposite, {0, sill_mm(room)},
                  {std::min(1800.0, room.width_mm * 0.6), upright_mm(room, 1600)}, {2, 3});
}

// Toward the place of a window from which the sun's patch has its edge on the panel.
glm::dvec3 through(const Layout& layout, const Window& window) {
    const FaceArea area = window_area(window);
    const glm::dvec2 size = area.high_mm - area.low_mm;
    const glm::dvec3 at =
        face_plane(layout.room, window.wall).point(area.low_mm + size * glm::dvec2(0.15, 0.6));
    return glm::normalize(at - face_centre_mm(layout));
}

bool lets_low_sun_in(const Layout& layout, const Window& window) {
    if (window.wall == RoomFace::panel || window.wall == RoomFace::ceiling || window.curtain != Curtain::none)
        return false;
    const glm::dvec3 way = through(layout, window);
    const double up = glm::degrees(std::asin(way.y));
    return way.z > 0.15 && up > 3 && up < 44;
}

}  // namespace

Daylight daylight_from(const glm::dvec3& to_sun) {
    const double wanted = std::min(glm::degrees(std::asin(std::clamp(to_sun.y, -1.0, 1.0))), 44.0);
    double early = 12, late = 23;  // the sun sinks all the while
    for (int i = 0; i < 60; ++i) {
        const double middle = (early + late) / 2;
        (sun_by_sundial(kEquinox, middle, kLatitude_deg).altitude_deg > wanted ? early : late) = middle;
    }
    Daylight day;
    day.sky = SkyKind::clear;
    day.time = SunTime{kEquinox, early, kLatitude_deg, {}, 0};
    const double azimuth = sun_by_sundial(kEquinox, early, kLatitude_deg).azimuth_deg;
    day.facing_deg = std::fmod(azimuth - glm::degrees(std::atan2(-to_sun.x, to_sun.z)) + 720, 360);
    return day;
}

Lighting north_light(const Layout& layout) {
    Lighting set_up;
    set_up.windows = own_windows(layout);
    if (set_up.windows.empty()) set_up.windows = {side_window(layout.room, {2200, 1900})};
    set_up.daylight.sky = SkyKind::overcast;
    return set_up;
}

Lighting sun_patch(const Layout& layout) {
    Lighting set_up;
    set_up.windows = own_windows(layout);
    auto sunny = std::find_if(set_up.windows.begin(), set_up.windows.end(),
                              [&](const Window& w) { return lets_low_sun_in(layout, w); });
    if (sunny == set_up.windows.end()) {
        set_up.windows = {side_window(layout.room, {1000, 1500})};
        sunny = set_up.windows.begin();
    }
    set_up.daylight = daylight_from(through(layout, *sunny));
    return set_up;
}

Lighting dusk(const Layout& layout) {
    constexpr double kSunUp_deg = -1;
    Lighting set_up = north_light(layout);
    const double up = glm::radians(kSunUp_deg);
    set_up.daylight = daylight_from({0, std::sin(up), std::cos(up)});
    Lamp lamp = gallery_spot(layout).lamps.front();
    lamp.name = lamp.group = "warm spot";
    lamp.candela = candela_for_lux(layout, lamp.at_mm, 50);
    lamp.temperature_k = 2700;
    set_up.lamps = {lamp};
    return set_up;
}

Lighting window_behind(const Layout& layout) {
    Lighting set_up;
    for (const Window& window : own_windows(layout))
        if (window.wall == RoomFace::opposite) set_up.windows.push_back(window);
    if (set_up.windows.empty()) set_up.windows = {far_window(layout.room)};
    set_up.daylight.sky = SkyKind::overcast;
    return set_up;
}

}  // namespace rakelight
