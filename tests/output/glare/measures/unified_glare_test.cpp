// The rating of CIE 117-1995 from numbers, and from the lamps of the same scene. The scene: the eye
// looks level along a room of luminance 30 cd/m2; four luminaires of 0.36 m2 and 4000 cd/m2 hang 1.5 m above
// it. Solid angles are area times cosine over distance squared; worked by hand from CIE 117's formula.
#include "output/glare/measures/unified_glare.h"

#include <gtest/gtest.h>

#include <numbers>

#include "output/glare/measures/guth.h"
#include "tests/support/small_world.h"

namespace rakelight {
namespace {

const glm::dvec3 kLuminaires_m[] = {{0, 1.5, -2}, {0, 1.5, -4}, {2, 1.5, -2}, {-2, 1.5, -4}};
const glm::dvec3 kSight(0, 0, -1), kUp(0, 1, 0);

TEST(UnifiedGlare, OfOneSource) {  // 8 log10(0.25 / 40 * 5000^2 * 0.01)
    const GlareSource source{kSight, 5000, 0.01, 1};
    EXPECT_NEAR(*unified_glare_rating(std::span(&source, 1), 40), 25.55, 0.005);
}

TEST(UnifiedGlare, DoublingAllLuminancesAddsEightLogTwo) {
    GlareSource source{kSight, 5000, 0.01, 1.7};
    const double before = *unified_glare_rating(std::span(&source, 1), 40);
    source.cd_per_m2 *= 2;
    EXPECT_NEAR(*unified_glare_rating(std::span(&source, 1), 80) - before, 2.408, 1e-3);
}

TEST(UnifiedGlare, OfFourLuminairesByHand) {
    std::vector<GlareSource> sources;
    for (const auto& at : kLuminaires_m) {
        const double far = glm::length(at);
        const glm::dvec3 direction = at / far;
        sources.push_back(
            {direction, 4000, 0.36 * direction.y / (far * far), position_index(direction, kSight, kUp)});
    }
    EXPECT_NEAR(sources[0].solid_angle_sr, 0.034560, 1e-6);
    EXPECT_NEAR(*unified_glare_rating(sources, 30), 22.28, 0.01);
}

// The four luminaires in a world of even luminance, found as the lamps they are.
World with_luminaires() {
    World world = empty_world();
    for (const auto& at : kLuminaires_m)
        world.emitters.push_back(
            lamp_of(RectangleShape{glm::vec2(300)}, glm::vec3(at * 1000.0), {0, -1, 0}, 4000));
    world.environment = UniformEnvironment{30, tristimulus_weights(*find_illuminant("D65")), 0};
    return world;
}

TEST(UnifiedGlare, OfTheLampsThemselves) {
    World world = with_luminaires();
    finish(world);
    const GlareView seen = glare_in_view(world, Bvh(world), world.emitters, {});
    ASSERT_EQ(seen.sources.size(), 4u);
    for (const GlareSource& source : seen.sources) EXPECT_NEAR(source.cd_per_m2, 4000, 1);
    // 30 over all the hemisphere but what the luminaires cover of it, as an upright surface receives it.
    EXPECT_NEAR(seen.background_cd_per_m2, 30, 0.6);
    ASSERT_TRUE(seen.rating);
    EXPECT_NEAR(*seen.rating, 22.28, 0.06);  // worked with area times cosine over distance squared
}

// A bulb of 60 mm at 2 m, 20 degrees above the sight: L and the solid angle 2 pi (1 - cos) of its cone in
// closed form. Pixels a few arc minutes wide are half covered all round its edge.
TEST(UnifiedGlare, OfABareBulbInClosedForm) {
    World world = empty_world();
    const double up = glm::radians(20.0);
    const glm::vec3 at(0, 2000 * std::sin(up), -2000 * std::cos(up));
    world.emitters.push_back(lamp_of(SphereShape{30}, at, {0, -1, 0}, 28000));
    world.environment = UniformEnvironment{5.75f, tristimulus_weights(*find_illuminant("D65")), 0};
    finish(world);
    const GlareView seen = glare_in_view(world, Bvh(world), world.emitters, {});
    ASSERT_EQ(seen.sources.size(), 1u);
    const double cone_sr = 2 * std::numbers::pi * (1 - std::cos(std::asin(30.0 / 2000)));
    EXPECT_NEAR(seen.sources[0].cd_per_m2, 28000, 3);
    EXPECT_NEAR(seen.sources[0].solid_angle_sr, cone_sr, 1e-4 * cone_sr);
    EXPECT_NEAR(seen.sources[0].position, position_index(0, 20), 1e-3);
    const double p = position_index(0, 20);
    EXPECT_NEAR(*seen.rating, 8 * std::log10(0.25 / 5.75 * 28000. * 28000 * cone_sr / (p * p)), 0.02);
}

TEST(UnifiedGlare, WhatStandsBeforeALampIsNotCounted) {
    World world = empty_world();
    world.emitters.push_back(lamp_of(RectangleShape{glm::vec2(100)}, {0, 0, -2000}, {0, 0, 1}, 5000));
    add(world, rectangle_mesh({0, -500, -1500}, {500, 0, 0}, {0, 1000, 0}), glm::mat4(1),
        object_of(world, matte(0)));  // hides its right half
    world.environment = UniformEnvironment{20, tristimulus_weights(*find_illuminant("D65")), 0};
    finish(world);
    const GlareView seen = glare_in_view(world, Bvh(world), world.emitters, {});
    ASSERT_EQ(seen.sources.size(), 1u);
    EXPECT_NEAR(seen.sources[0].solid_angle_sr, 0.01 / 2, 1e-4);  // 0.04 m2 at 2 m
    EXPECT_NEAR(seen.sources[0].cd_per_m2, 5000, 1);
    EXPECT_LT(seen.sources[0].direction.x, -0.02);
}

// Indirect illuminance of a closed white room by the integrating sphere: E = flux rho / (A (1 - rho)), taken
// far from the lamp, which hangs behind the eye and so is no source.
TEST(UnifiedGlare, BackgroundIsTheIndirectLightOfTheHemisphere) {
    World world = empty_world();
    const float half = 2000;
    const Object wall = object_of(world, matte(0.5f));
    for (int axis = 0; axis < 3; ++axis)
        for (const float side : {-half, half}) {
            glm::vec3 corner(-half), a(0), b(0);
            corner[axis] = side;
            a[(axis + (side < 0 ? 1 : 2)) % 3] = 2 * half;
            b[(axis + (side < 0 ? 2 : 1)) % 3] = 2 * half;
            add(world, rectangle_mesh(corner, a, b), glm::mat4(1), wall);
        }
    const double lumen = 10000, radius = 100;
    const auto cd_per_m2 =
        static_cast<float>(lumen / (4 * std::numbers::pi * std::numbers::pi * radius * radius * 1e-6));
    world.emitters.push_back(lamp_of(SphereShape{float(radius)}, {0, 0, 500}, {0, -1, 0}, cd_per_m2));
    finish(world);
    const GlareView seen = glare_in_view(world, Bvh(world), world.emitters, {});
    EXPECT_TRUE(seen.sources.empty());
    EXPECT_FALSE(seen.rating);
    // 104.17 lx is the mean over the walls of a 4 m cube (CIE 171:2006, test 5.8); at its middle, by the same
    // closed form to within the unevenness of its walls.
    EXPECT_NEAR(seen.background_cd_per_m2, 104.17 / std::numbers::pi, 0.12 * 104.17 / std::numbers::pi);
}

// The sky through a window is a source only where it outshines the view.
TEST(UnifiedGlare, ADullWindowIsBackground) {
    World world = empty_world();
    world.groups = {"light", "window"};
    world.emitters.push_back(lamp_of(RectangleShape{glm::vec2(500)}, {0, 0, -2000}, {0, 0, 1}, 60));
    world.emitters[0].group = 1;
    world.environment = UniformEnvironment{30, tristimulus_weights(*find_illuminant("D65")), 0};
    finish(world);
    const Bvh bvh(world);
    const std::uint32_t windows[] = {1};
    const GlareView dull = glare_in_view(world, bvh, world.emitters, {}, windows);
    EXPECT_TRUE(dull.sources.empty());
    EXPECT_GT(dull.background_cd_per_m2, 32);  // 30 and 30 more over 0.25 sr of pi
    world.emitters[0].peak_cd_per_m2 = 6000;
    EXPECT_EQ(glare_in_view(world, bvh, world.emitters, {}, windows).sources.size(), 1u);
}

}  // namespace
}  // namespace rakelight
