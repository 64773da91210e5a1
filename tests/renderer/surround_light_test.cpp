// Light from all round, from a picture, against closed forms and against the same light from lamps.
#include <gtest/gtest.h>

#include <cmath>
#include <glm/gtc/matrix_transform.hpp>
#include <numbers>

#include "renderer/light_meter.h"
#include "tests/support/small_world.h"
#include "tests/support/surround_samples.h"

using namespace rakelight;

namespace {

constexpr double kPi = std::numbers::pi;

// A ball of facets in the middle of the picture, which fills the view of nothing else.
World ball_in(SurroundPicture picture, const Material& material) {
    World world = empty_world();
    add(world, box_mesh({-100, -100, -100}, {100, 100, 100}), glm::mat4(1), object_of(world, material));
    put_round(world, std::move(picture));
    finish(world);
    return world;
}

// Illuminance at the origin of a plane that faces `normal`; nothing else is there.
double lux_facing(const World& world, const glm::vec3& normal, int paths) {
    const Bvh bvh(world);
    return illuminance_xyz(world, bvh, world.emitters, {0, 0, 0}, normal, paths)[0].y;
}

// A world in which nothing stands in the light: a crumb far away, for the ray tracer's sake.
World empty_under(SurroundPicture picture) {
    World world = empty_world();
    add(world, floor_square(1), glm::translate(glm::mat4(1), glm::vec3(0, -50'000, 0)),
        object_of(world, matte(0)));
    put_round(world, std::move(picture));
    finish(world);
    return world;
}

glm::vec3 towards(double altitude_deg, double aside_deg) {
    const double a = altitude_deg * kPi / 180, b = aside_deg * kPi / 180;
    return glm::vec3(glm::dvec3(std::cos(a) * std::sin(b), std::sin(a), std::cos(a) * std::cos(b)));
}

}  // namespace

// The furnace: what absorbs nothing cannot be told from an even surround.
TEST(SurroundLight, EvenPictureIsAFurnace) {
    for (const Material& material : {matte(1), faced(1.5f, 0, 1), faced(1.5f, 0.4f, 1)}) {
        const World world = ball_in(even_surround(64, {30, 30, 30}), material);
        for (const glm::vec3 from : {glm::vec3(0, 0, 500), {300, 400, 200}, {-300, -100, -500}}) {
            const glm::dvec3 seen = seen_xyz(world, from, -glm::normalize(from), 20'000);
            EXPECT_NEAR(seen.y, 30, 30 * 0.002);
            EXPECT_NEAR(seen.x, 30 * 0.95043, 30 * 0.002);  // D65, IEC 61966-2-1
        }
    }
}

// E of a disc of luminance L and solid angle w far off at angle t to the normal: L w cos t.
TEST(SurroundLight, OneBrightPixelIsADistantDiscOfItsSolidAngle) {
    SurroundPicture picture = even_surround(256, glm::vec3(0));
    const int x = 170, y = 70;
    picture.rgb[static_cast<std::size_t>(y) * picture.width_px + x] = glm::vec3(1e6f);
    const double sr = pixel_sr(picture, y);
    const glm::vec3 to = pixel_direction(picture, x, y);
    const World world = empty_under(picture);
    ASSERT_EQ(world.emitters.size(), 1u);

    constexpr float kFar_mm = 1e6f;
    const auto radius_mm = static_cast<float>(kFar_mm * std::sqrt(sr / kPi));
    World with_disc = empty_world();
    add(with_disc, floor_square(1), glm::translate(glm::mat4(1), glm::vec3(0, -50'000, 0)),
        object_of(with_disc, matte(0)));
    with_disc.emitters.push_back(lamp_of(DiscShape{glm::vec2(radius_mm)}, to * kFar_mm, -to, 1e6f));
    finish(with_disc);

    for (const glm::vec3& normal : {to, towards(10, -20), towards(70, 60)}) {
        const double expected = 1e6 * sr * double(glm::dot(normal, to));
        const double seen = lux_facing(world, normal, 512);
        EXPECT_NEAR(seen, expected, 0.01 * expected);
        EXPECT_NEAR(seen, lux_facing(with_disc, normal, 512), 0.01 * expected);
    }
    // Its image in a mirror is as bright as it is: as sharp as its pixels.
    EXPECT_NEAR(seen_cd_per_m2(world, {0, 0, 0}, to, 64), 1e6, 1);
    EXPECT_EQ(seen_cd_per_m2(world, {0, 0, 0}, -to, 64), 0);
}

// L = L0 max(0, d.a) gives a plane whose normal makes b with a: E = 2/3 L0 (sin b + (pi - b) cos b), the
// convolution of two clamped cosines (by hand; 2 pi / 3 face on, 2 / 3 at right angles).
TEST(SurroundLight, CosineLobeGivesItsClosedForm) {
    const glm::vec3 axis = towards(35, 40);
    const World world = empty_under(surround_of(
        256, [&](const glm::vec3& d) { return glm::vec3(100 * std::max(0.0f, glm::dot(d, axis))); }));
    const glm::vec3 aside = glm::normalize(glm::cross(axis, glm::vec3(0, 1, 0)));
    for (const double degrees : {0.0, 30.0, 60.0, 90.0, 120.0}) {
        const double b = degrees * kPi / 180;
        const glm::vec3 normal =
            axis * static_cast<float>(std::cos(b)) + aside * static_cast<float>(std::sin(b));
        const double expected = 100 * 2.0 / 3 * (std::sin(b) + (kPi - b) * std::cos(b));
        EXPECT_NEAR(lux_facing(world, normal, 4096), expected, 0.005 * expected) << degrees;
    }
}

// Turned clockwise, seen from above: what was straight ahead comes to lie on the left of who looks out.
TEST(SurroundLight, IsTurned) {
    Layout layout = lit_all_round(
        surround_of(32, [](const glm::vec3& d) { return glm::vec3(d.z > 0.95f ? 100.0f : 0.0f); }));
    layout.on.all_round->turned_deg = 90;
    const std::vector<WindowLight> lights = surround_lights(layout);
    ASSERT_FALSE(lights.empty());
    glm::dvec3 sum(0);
    for (const WindowLight& light : lights)
        sum -= glm::dvec3(light.emitter.axis) *
               double(light.emitter.peak_cd_per_m2 * luminous_mm2(light.emitter));
    EXPECT_NEAR(glm::dot(glm::normalize(sum), glm::dvec3(-1, 0, 0)), 1, 1e-3);
    for (const WindowLight& light : lights) {
        const auto& part = std::get<SurroundPart>(light.emitter.shape);
        const ShapeSample s = sample(part, light.emitter, glm::vec3(0), {0.4f, 0.7f});
        EXPECT_GT(-s.direction.x, 0.9f);
        EXPECT_EQ(intersect(part, light.emitter, glm::vec3(0), s.direction).at_mm.x, s.at_mm.x);
        EXPECT_NEAR(pdf(part, light.emitter, glm::vec3(0), s.direction, 1), s.pdf, 1e-4f * s.pdf);
    }
}

// Densities of a patch integrate to 1 over it (midpoint rule over pixels, by hand), and each is what
// sampling gives: shares of samples in the half above and below are those of the light.
TEST(SurroundLight, SamplesByLuminance) {
    const AllRound all(
        surround_of(64, [](const glm::vec3& d) { return glm::vec3(1 + d.y + 3 * d.x * d.x); }));
    const SurroundPicture& p = all.picture();
    for (std::size_t k = 0; k < all.patches().size(); ++k) {
        double total = 0, upper = 0;
        const SurroundPatch& patch = all.patches()[k];
        const int middle = patch.top + patch.rows / 2;
        for (std::uint32_t i = 0; i < p.rgb.size(); ++i) {
            if (all.patch_of(i) != k) continue;
            const int y = static_cast<int>(i) / p.width_px;
            const double share = double(all.pdf(k, i)) * pixel_sr(p, y);
            total += share;
            if (y < middle) upper += share;
        }
        EXPECT_NEAR(total, 1, 1e-4);
        int above = 0;
        constexpr int kCount = 4096;
        for (std::uint32_t i = 0; i < kCount; ++i) {
            const SampledPixel s = all.sample(k, Sampler(1, i).next());
            EXPECT_EQ(all.patch_of(s.pixel), k);
            if (static_cast<int>(s.pixel) / p.width_px < middle) ++above;
        }
        EXPECT_NEAR(double(above) / kCount, upper, 0.01) << k;
    }
}
