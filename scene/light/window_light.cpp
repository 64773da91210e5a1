#include "scene/light/window_light.h"

#include <glm/gtc/constants.hpp>

#include "materials/colour/observer.h"
#include "scene/light/daylight_level.h"
#include "scene/light/surround_emitters.h"
#include "scene/model/layout.h"
#include "scene/room/room_face.h"
#include "scene/room/window_bars.h"

namespace rakelight {
namespace {

constexpr double kUsualSky_lux = 10'000;
// The glow lies a little before the wall, and the sun before the sky.
constexpr double kSkyBeforeWall_mm = 1;
constexpr double kSunBeforeWall_mm = 1.25;

glm::vec2 half_mm(const Window& window) {
    return {static_cast<float>(window.size_mm.x / 2), static_cast<float>(window.size_mm.y / 2)};
}

Emitter face_of(const Room& room, const Window& window, double before_wall_mm, const glm::dvec3& origin_mm) {
    const FacePlane face = face_plane(room, window.wall);
    const auto [low, high] = window_area(window);
    Emitter e;
    e.centre_mm = face.point((low + high) / 2.0) + before_wall_mm * face.inward - origin_mm;
    e.axis = face.inward;
    e.u = face.along;
    e.v = face.up;
    e.shape = RectangleShape{half_mm(window)};
    return e;
}

// Sun that falls on the pane from outside, lux.
double sun_on_pane_lux(const Room& room, const Window& window, const LightOutside& outside) {
    return outside.sun_lux * std::max(0.0, -glm::dot(outside.to_sun, face_plane(room, window.wall).inward));
}

bool lets_sun_in(const Room& room, const Window& window, const LightOutside& outside) {
    return window.curtain == Curtain::none && window.dimming > 0 &&
           sun_on_pane_lux(room, window, outside) > 0;
}

double luminous(const Spectrum& s) {
    double total = 0;
    for (int i = 0; i < kSpectrumCount; ++i) total += s[i] * kObserver1931.y_bar[i];
    return total;
}

// Light of two spectra that give so many lux each.
Spectrum mixed(const Spectrum& a, double a_lux, const Spectrum& b, double b_lux) {
    Spectrum sum;
    const double of_a = a_lux / luminous(a), of_b = b_lux / luminous(b);
    for (int i = 0; i < kSpectrumCount; ++i) sum[i] = of_a * a[i] + of_b * b[i];
    return sum;
}

// The ground, a grey one, sends back what sky and sun give it.
struct Colours {
    Spectrum sky, sun, ground;
    Colours(const Daylight& day, const LightOutside& outside)
        : sky(sky_spectrum(day)),
          sun(sun_spectrum(outside.altitude_deg)),
          ground(mixed(sky, plane_lux(outside.sky, {0, 1, 0}), sun,
                       outside.sun_lux * std::max(outside.to_sun.y, 0.0))) {}
};

}  // namespace

LightOutside look_outside(const Daylight& daylight) {
    LightOutside outside;
    const std::optional<SunInSky> sun = sun_of(daylight);
    if (sun) {
        outside.to_sun = direction_in_room(sun->altitude_deg, sun->azimuth_deg, daylight.facing_deg);
        outside.altitude_deg = sun->altitude_deg;
    }
    if (sun && daylight.sky == SkyKind::clear && sun->altitude_deg > 0)
        outside.sun_lux = daylight.sun_lux.value_or(sun_lux(sun->altitude_deg, sun->distance_au));
    const double level_lux =
        daylight.sky_lux.value_or(sun ? sky_lux(daylight.sky, sun->altitude_deg) : kUsualSky_lux);
    const double ground_lux = level_lux + outside.sun_lux * std::max(outside.to_sun.y, 0.0);
    outside.sky = make_sky(daylight.sky, outside.to_sun, level_lux,
                           daylight.ground_reflectance * ground_lux / glm::pi<double>());
    return outside;
}

std::vector<WindowLight> window_lights(const Layout& layout, const glm::dvec3& origin_mm) {
    std::vector<WindowLight> lights = surround_lights(layout);
    if (layout.on.windows.empty()) return lights;
    const LightOutside outside = look_outside(layout.on.daylight);
    const Colours colours(layout.on.daylight, outside);
    SkyView above = outside.sky, below = outside.sky;
    above.ground_cd_per_m2 = 0;
    below.scale_cd_per_m2 = 0;
    for (const Window& window : layout.on.windows) {
        const glm::dvec3 out = -face_plane(layout.room, window.wall).inward;
        const double sky_lux = plane_lux(above, out), ground_lux = plane_lux(below, out);
        const double scale = window.lux ? *window.lux / (sky_lux + ground_lux) : 1;
        const double through = window.transmittance * window.dimming;
        const bool glazed = window.transmittance < 1;  // else it stands open
        const auto add = [&](const std::string& name, const std::string& group,
                             double before_mm) -> Emitter& {
            lights.push_back({name, group, face_of(layout.room, window, before_mm, origin_mm)});
            return lights.back().emitter;
        };
        const auto add_view = [&](const SkyView& view, double pane_lux, const Spectrum& colour) {
            if (!(pane_lux > 0)) return;
            Emitter& e = add(window.name, window.group, kSkyBeforeWall_mm);
            e.sky = scaled(view, scale * through);
            e.glazed = glazed;
            e.peak_cd_per_m2 = static_cast<float>(pane_lux * scale * through / glm::pi<double>());
            e.weights = tristimulus_weights(colour);
        };
        if (window.curtain != Curtain::none) {  // all that gets through glows evenly: L = tau E / pi
            const double sun_lux = sun_on_pane_lux(layout.room, window, outside);
            const double all_lux = scale * (sky_lux + ground_lux) + sun_lux;
            Emitter& e = add(window.name, window.group, kSkyBeforeWall_mm);
            e.peak_cd_per_m2 = static_cast<float>(all_lux * through * open_share(window) / glm::pi<double>());
            e.weights = tristimulus_weights(
                mixed(mixed(colours.sky, scale * sky_lux, colours.ground, scale * ground_lux),
                      scale * (sky_lux + ground_lux), colours.sun, sun_lux));
        } else if (outside.sun_lux > 0) {  // the ground has a colour of its own
            add_view(above, sky_lux, colours.sky);
            add_view(below, ground_lux, colours.ground);
        } else {
            add_view(outside.sky, sky_lux + ground_lux, colours.sky);
        }
        if (!lets_sun_in(layout.room, window, outside)) continue;
        Emitter& sun = add(kSunName, kSunName, kSunBeforeWall_mm);
        sun.shape = SunThroughWindow{{half_mm(window)}, outside.to_sun};
        sun.weights = tristimulus_weights(colours.sun);
        const double aslant = glazed ? glazing_share(static_cast<float>(glm::dot(outside.to_sun, out))) : 1;
        sun.peak_cd_per_m2 = static_cast<float>(outside.sun_lux * through * aslant / kSunDisc_sr);
    }
    return lights;
}

bool sun_shines_in(const Layout& layout) {
    if (layout.on.windows.empty()) return false;
    const LightOutside outside = look_outside(layout.on.daylight);
    return std::any_of(layout.on.windows.begin(), layout.on.windows.end(),
                       [&](const Window& w) { return lets_sun_in(layout.room, w, outside); });
}

std::vector<std::string> light_names(const Layout& layout) {
    std::vector<std::string> names;
    for (const Lamp& lamp : layout.on.lamps) names.insert(names.end(), {lamp.name, lamp.group});
    for (const Window& window : layout.on.windows) names.insert(names.end(), {window.name, window.group});
    if (sun_shines_in(layout)) names.push_back(kSunName);
    if (const auto& round = layout.on.all_round) names.insert(names.end(), {round->name, round->group});
    return names;
}

}  // namespace rakelight
