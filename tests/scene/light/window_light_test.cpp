// Windows as lamps: where they are and how much they give.
#include "scene/light/window_light.h"
#include "scene/model/layout.h"

#include <gtest/gtest.h>

#include <glm/gtc/constants.hpp>

#include "scene/light/daylight_level.h"
#include "scene/room/room_face.h"
#include "scene/room/window_bars.h"

using namespace rakelight;

namespace {

constexpr double kPi = glm::pi<double>();

Layout room_with(const Window& window) {
    Layout layout;
    layout.on.windows.push_back(window);
    layout.on.windows.back().name = layout.on.windows.back().group = "pane";
    return layout;
}

Window side_window() {
    Window w;
    w.wall = RoomFace::right;
    w.at_mm = {2000, 900};
    w.size_mm = {1200, 1500};
    w.transmittance = 1;
    return w;
}

}  // namespace

TEST(WindowLight, StandsInItsWall) {
    const Layout layout = room_with(side_window());
    const Emitter e = window_lights(layout, {0, 1450, 0}).front().emitter;
    EXPECT_NEAR(e.centre_mm.x, 2500, 1.5);
    EXPECT_NEAR(e.centre_mm.y, 900 + 750 - 1450, 1e-3);
    EXPECT_NEAR(e.centre_mm.z, 2000, 1e-3);
    EXPECT_EQ(e.axis, glm::vec3(-1, 0, 0));
    EXPECT_TRUE(e.shape == EmitterShape(RectangleShape{{600, 750}}));
}

// Every face looks into the room, and its coordinates span it.
TEST(WindowLight, FacesOfTheRoom) {
    const Room room;
    const glm::dvec3 middle(0, room.height_mm / 2, room.depth_mm / 2);
    for (const RoomFace f :
         {RoomFace::left, RoomFace::right, RoomFace::opposite, RoomFace::panel, RoomFace::ceiling}) {
        const FacePlane face = face_plane(room, f);
        const glm::dvec3 inward = middle - face.point((face.low_mm + face.high_mm) / 2.0);
        EXPECT_NEAR(glm::dot(inward, face.inward), glm::length(inward), 1e-9);
        EXPECT_NEAR(std::abs(glm::dot(glm::cross(face.along, face.up), face.inward)), 1, 1e-12);
    }
}

// A Lambertian pane gives pi L A: all the light that falls on it, times what it lets through.
TEST(WindowLight, CurtainKeepsTheFlux) {
    Window w = side_window();
    w.curtain = Curtain::sheer;
    w.transmittance = 0.4;
    w.lux = 5000;
    const Emitter e = window_lights(room_with(w), {}).front().emitter;
    EXPECT_FALSE(e.sky);
    EXPECT_NEAR(kPi * e.peak_cd_per_m2, 0.4 * 5000, 0.5);
}

// Stated at the pane: what an upright plane outside would read, whatever the sky.
TEST(WindowLight, StatedLuxIsThatOfThePane) {
    for (const SkyKind sky : {SkyKind::overcast, SkyKind::clear}) {
        Window w = side_window();
        w.lux = 3000;
        Layout layout = room_with(w);
        layout.on.daylight.sky = sky;
        layout.on.daylight.time = SunTime{{2026, 6, 21}, 15, 52, {}, 0};
        double seen = 0, mean = 0;
        for (const WindowLight& light : window_lights(layout, {})) {
            if (light.name == kSunName) continue;
            ASSERT_TRUE(light.emitter.sky);
            seen += plane_lux(*light.emitter.sky, {1, 0, 0});
            mean += kPi * light.emitter.peak_cd_per_m2;
        }
        EXPECT_NEAR(seen, 3000, 1);
        EXPECT_NEAR(mean, 3000, 1);
    }
}

// Through glass the sky is as bright as double glazing lets it be from there: at 60 degrees (1 - R) / (1 + 3
// R) with R = 0.18344 and 0.00153 (Fresnel, n = 1.52) is 0.76031 in the mean, 0.84897 straight. An open
// window passes all.
TEST(WindowLight, GlassPassesLessAslant) {
    Window w = side_window();
    const auto seen = [&](double degrees) {
        const double turn = degrees * kPi / 180;
        const glm::vec3 inward(-std::cos(turn), 0.0, std::sin(turn));
        double sum = 0;
        for (const WindowLight& light : window_lights(room_with(w), {}))
            sum +=
                luminance_cd_per_m2(light.emitter, glm::normalize(inward - glm::vec3(0, 1e-3f, 0)), {0, 0});
        return sum;
    };
    EXPECT_NEAR(seen(60) / seen(0), 1, 1e-5);  // an overcast sky is even along the horizon
    w.transmittance = 0.8;
    EXPECT_NEAR(seen(60) / seen(0), 0.76031 / 0.84897, 1e-3);
    // The sun, straight and aslant.
    const auto sun = [&](double facing_deg) {
        Layout layout = room_with(w);
        layout.on.daylight.sky = SkyKind::clear;
        layout.on.daylight.time = SunTime{{2026, 3, 20}, 16, 45, {}, 0};
        layout.on.daylight.sun_lux = 60'000;
        layout.on.daylight.facing_deg = facing_deg;
        const glm::dvec3 to_sun = look_outside(layout.on.daylight).to_sun;
        const auto lights = window_lights(layout, {});
        const double through = lights.back().emitter.peak_cd_per_m2 * kSunDisc_sr / (0.8 * 60'000);
        return std::pair(to_sun.x, through);  // the window looks to +x
    };
    for (const double facing_deg : {340.0, 0.0, 30.0, 310.0}) {
        const auto [cosine, through] = sun(facing_deg);
        ASSERT_GT(cosine, 0.1) << facing_deg;
        EXPECT_NEAR(through, plates_transmittance(static_cast<float>(cosine), 1.52f, 2) / 0.84897, 1e-3)
            << facing_deg;
    }
}

// Bars: 3 uprights and 2 x 4 across for panes 2 x 3; together with the open share they make up the window.
TEST(WindowLight, BarsAndGlassMakeTheWindow) {
    Window w = side_window();
    w.panes = {2, 3};
    w.bar_mm = 50;
    const auto bars = window_bars(Room{}, w);
    EXPECT_EQ(bars.size(), 3u + 8u);
    double covered = 0;
    for (const auto& [low, high] : bars) {
        EXPECT_TRUE(glm::all(glm::lessThan(low, high)));
        covered += (high.y - low.y) * (high.z - low.z);
        EXPECT_EQ(high.x, 2500);  // from the right wall
    }
    EXPECT_NEAR(covered / (w.size_mm.x * w.size_mm.y) + open_share(w), 1, 1e-12);
    EXPECT_NEAR(open_share(w), (1200.0 - 150) * (1500.0 - 200) / (1200.0 * 1500.0), 1e-12);
    w.bar_mm = 400;
    EXPECT_TRUE(bars_close(w));
}

// In the afternoon the sun stands in the west: left of a viewer who faces north.
TEST(WindowLight, SunComesThroughTheWindowItShinesOn) {
    Layout layout = room_with(side_window());
    layout.on.daylight.sky = SkyKind::clear;
    layout.on.daylight.time = SunTime{{2026, 6, 21}, 16, 52, {}, 0};
    EXPECT_FALSE(sun_shines_in(layout));  // the right wall is the east one
    layout.on.windows[0].wall = RoomFace::left;
    EXPECT_TRUE(sun_shines_in(layout));
    layout.on.daylight.sun_lux = 60'000;
    const auto lights = window_lights(layout, {});
    ASSERT_EQ(lights.size(), 3u);  // sky, ground, sun
    EXPECT_EQ(lights[2].name, kSunName);
    EXPECT_NEAR(lights[2].emitter.peak_cd_per_m2 * kSunDisc_sr, 60'000, 6);
    layout.on.windows[0].curtain = Curtain::sheer;
    EXPECT_FALSE(sun_shines_in(layout));
    layout.on.windows[0].curtain = Curtain::none;
    layout.on.daylight.time->hour = 22;
    EXPECT_FALSE(sun_shines_in(layout));
    layout.on.daylight.time->hour = 16;
    layout.on.daylight.sky = SkyKind::overcast;
    EXPECT_FALSE(sun_shines_in(layout));
}

// Ground under a clear sky is lit by the sun more than by the sky: it is warmer than the sky, colder than the
// sun.
TEST(WindowLight, SunColoursTheGround) {
    Window w = side_window();
    w.wall = RoomFace::left;
    Layout layout = room_with(w);
    layout.on.daylight.sky = SkyKind::clear;
    layout.on.daylight.time = SunTime{{2026, 6, 21}, 14, 52, {}, 0};
    const auto lights = window_lights(layout, {});
    ASSERT_EQ(lights.size(), 3u);
    const auto blue = [&](std::size_t i) {
        return integrate(lights[i].emitter.weights, SampledSpectrum(1.0f))[2];
    };
    EXPECT_GT(blue(0), blue(1) + 0.1);
    EXPECT_GT(blue(1), blue(2));
    EXPECT_EQ(luminance_cd_per_m2(*lights[0].emitter.sky, {-0.8f, -0.6f, 0}), 0);
    EXPECT_EQ(luminance_cd_per_m2(*lights[1].emitter.sky, {-0.8f, 0.6f, 0}), 0);
}

// The mean angular radius of the sun is 959.6 seconds of arc; its disc covers 6.80e-5 sr.
TEST(WindowLight, SunDisc) {
    EXPECT_NEAR(kSunDisc_sr, 6.80e-5, 0.01e-5);
}
