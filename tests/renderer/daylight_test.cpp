// Light from outside, through a window and along paths, against closed forms.
#include <gtest/gtest.h>

#include <numbers>

#include "renderer/light_meter.h"
#include "tests/support/small_world.h"

using namespace rakelight;

namespace {

constexpr double kPi = std::numbers::pi;

// A level white square round the origin (y up) and a window in the plane x = 1000 that looks towards -x.
World floor_and_window(float half_along_mm, const glm::vec3& centre_mm, float half_up_mm) {
    World world = empty_world();
    world.groups = {"sky", "sun"};
    const Object ground = object_of(world, matte(0.5f));
    add(world, rectangle_mesh({-200, 0, -200}, {0, 0, 400}, {400, 0, 0}), glm::mat4(1), ground);
    Emitter e = lamp_of(RectangleShape{{half_along_mm, half_up_mm}}, centre_mm, {-1, 0, 0}, 1000);
    e.u = {0, 0, 1};
    e.v = {0, 1, 0};
    world.emitters.push_back(e);
    return world;
}

double level_lux(const World& world, const glm::vec3& at_mm, int paths) {
    const Bvh bvh(world);
    const auto groups = illuminance_xyz(world, bvh, world.emitters, at_mm, {0, 1, 0}, paths);
    return groups[0].y + groups[1].y;
}

double floor_luminance(const World& world, const glm::vec3& at_mm, int paths) {
    const Bvh bvh(world);
    const LightSampler lamps(world.emitters);
    const SceneView<Bvh> scene{world, bvh, lamps};
    std::vector<glm::dvec3> total(world.groups.size(), glm::dvec3(0));
    for (int i = 0; i < paths; ++i) {
        Path path{.from_mm = at_mm + glm::vec3(0, 500, 0),
                  .direction = {0, -1, 0},
                  .sampler = Sampler(1, static_cast<std::uint32_t>(i))};
        trace_paths(scene, std::span(&path, 1), total);
    }
    return (total[0].y + total[1].y) / paths;
}

// The sun through the window, from the right and 45 degrees up.
World sunlit_floor() {
    World world = floor_and_window(50, {1000, 1000, 0}, 40);
    Emitter& sun = world.emitters.front();
    sun.shape = SunThroughWindow{{{50, 40}}, glm::normalize(glm::vec3(1, 1, 0))};
    sun.group = 1;
    sun.peak_cd_per_m2 = static_cast<float>(80'000 / kSunDisc_sr);
    finish(world);
    return world;
}

constexpr float kJustAbove_mm = 0.01f;

}  // namespace

// Element at right angles to a unit square that starts at its foot, one unit away: 0.055734 (Howell, "A
// Catalog of Radiation Heat Transfer Configuration Factors", from the closed form of an element and a
// rectangle).
TEST(Daylight, EvenWindowByItsConfigurationFactor) {
    World world = floor_and_window(500, {1000, 500, 500}, 500);
    finish(world);
    const double expected = kPi * 1000 * 0.055734;
    EXPECT_NEAR(level_lux(world, {0, kJustAbove_mm, 0}, 16'384), expected, 0.005 * expected);
    EXPECT_NEAR(floor_luminance(world, {0, 0, 0}, 16'384), 0.5 * expected / kPi, 0.01 * expected);
}

// The overcast sky through the same window: the illuminance is the integral over azimuth a, to arctan(w / d),
// of Lz/3 (sin^2 G / 2 + 2 sin^3 G / 3), where the window's head is seen at tan G = (h / d) cos a (the sky
// component of Hopkinson, Petherbridge and Longmore, "Daylighting", 1966). Here w = d = h; Simpson's rule.
TEST(Daylight, OvercastSkyThroughAWindow) {
    World world = floor_and_window(500, {1000, 500, 500}, 500);
    const SkyView sky = make_sky(SkyKind::overcast, {0, 1, 0}, 7 * kPi / 9 * 3000, 0);  // zenith 3000 cd/m2
    world.emitters.front().sky = sky;
    finish(world);
    constexpr int kSteps = 200;
    double integral = 0;
    for (int i = 0; i <= kSteps; ++i) {
        const double rise = std::cos(i * kPi / 4 / kSteps);
        const double sine = rise / std::sqrt(1 + rise * rise);
        const double weight = i == 0 || i == kSteps ? 1 : i % 2 ? 4 : 2;
        integral += weight * (sine * sine / 2 + 2 * sine * sine * sine / 3);
    }
    integral *= kPi / 4 / kSteps / 3;
    const double expected = 3000.0 / 3 * integral;
    EXPECT_NEAR(level_lux(world, {0, kJustAbove_mm, 0}, 16'384), expected, 0.005 * expected);
    EXPECT_NEAR(floor_luminance(world, {0, 0, 0}, 16'384), 0.5 * expected / kPi, 0.005 * expected);
}

// E sin(altitude) inside the patch, by the meter and along paths.
TEST(Daylight, SunPatchIsAsBrightAsTheSun) {
    const World world = sunlit_floor();
    const double expected = 80'000 * std::sqrt(0.5);
    EXPECT_NEAR(level_lux(world, {0, kJustAbove_mm, 0}, 64), expected, 1e-3 * expected);
    EXPECT_NEAR(floor_luminance(world, {0, 0, 0}, 64), 0.5 * expected / kPi, 1e-3 * expected);
}

// By geometry the patch runs from x = -40 to 40 and z = -50 to 50. Its rim is blurred by the sun's disc: half
// of the light at the line itself, all or nothing r / sin(altitude) further, where r = 1414 mm x tan 0.2666
// deg.
TEST(Daylight, SunPatchLiesWhereGeometryPutsIt) {
    const World world = sunlit_floor();
    const double full = 80'000 * std::sqrt(0.5);
    const double radius = 1414.2 * std::tan(kSunRadius_rad);
    struct Edge {
        glm::vec3 at, out;
        double blur_mm;
    };
    for (const Edge& edge : {Edge{{40, 0, 0}, {1, 0, 0}, radius * std::sqrt(2.0)},
                             Edge{{-40, 0, 0}, {-1, 0, 0}, radius * std::sqrt(2.0)},
                             Edge{{0, 0, 50}, {0, 0, 1}, radius}, Edge{{0, 0, -50}, {0, 0, -1}, radius}}) {
        const auto lux = [&](double out_mm) {
            return level_lux(world, edge.at + edge.out * float(out_mm) + glm::vec3(0, kJustAbove_mm, 0),
                             4096);
        };
        EXPECT_NEAR(lux(0), full / 2, 0.02 * full);
        EXPECT_NEAR(lux(-edge.blur_mm - 0.5), full, 1e-3 * full);
        EXPECT_EQ(lux(edge.blur_mm + 0.5), 0);
    }
}

// Fresnel at 45 degrees, n = 1.5: 0.050240. A flat glass shows the sun and the sky with that share of their
// luminance.
TEST(Daylight, SunAndSkyMirroredInGlass) {
    constexpr double kMirrored = 0.050240;
    const auto mirrored = [](bool sun) {
        World world = empty_world();
        world.groups = {"sky", "sun"};
        add(world, rectangle_mesh({-200, 0, -200}, {0, 0, 400}, {400, 0, 0}), glm::mat4(1),
            object_of(world, faced(1.5f, 0, 0)));
        Emitter e = lamp_of(RectangleShape{glm::vec2(300)}, {1000, 1000, 0}, {-1, 0, 0}, 1000);
        e.u = {0, 0, 1};
        e.v = {0, 1, 0};
        if (sun) {
            e.shape = SunThroughWindow{{glm::vec2(300)}, glm::normalize(glm::vec3(1, 1, 0))};
            e.peak_cd_per_m2 = 1e9f;
        } else {
            e.sky = make_sky(SkyKind::overcast, {0, 1, 0}, 7 * kPi / 9 * 3000, 0);
        }
        world.emitters.push_back(e);
        finish(world);
        const Bvh bvh(world);
        const LightSampler lamps(world.emitters);
        const SceneView<Bvh> scene{world, bvh, lamps};
        std::vector<glm::dvec3> total(2, glm::dvec3(0));
        Path path{.from_mm = {-500, 500, 0},
                  .direction = glm::normalize(glm::vec3(1, -1, 0)),
                  .sampler = Sampler(1, 1)};
        constexpr int kPaths = 4096;
        for (int i = 0; i < kPaths; ++i) {
            Path each = path;
            each.sampler = Sampler(1, static_cast<std::uint32_t>(i));
            trace_paths(scene, std::span(&each, 1), total);
        }
        return total[0].y / kPaths;
    };
    EXPECT_NEAR(mirrored(true) / (kMirrored * 1e9), 1, 0.05);
    const double sky = 3000.0 / 3 * (1 + 2 * std::sqrt(0.5));
    EXPECT_NEAR(mirrored(false) / (kMirrored * sky), 1, 0.05);
}
