// Light of the simplest scenes against the closed forms of photometry (CIE S 017 definitions; Walsh,
// "Photometry").
#include <gtest/gtest.h>

#include <numbers>

#include "renderer/light_meter.h"
#include "tests/support/small_world.h"

using namespace rakelight;

namespace {

constexpr double kPi = std::numbers::pi;
constexpr float kSpotRadius_mm = 5;

// A disc so small that it is a point at 2 m; `candela` along its axis.
World matte_under_spot(float reflectance, const glm::vec3& at_mm, const glm::vec3& axis, double candela) {
    World world = empty_world();
    add(world, floor_square(400), glm::mat4(1), object_of(world, matte(reflectance)));
    const double area_m2 = kPi * kSpotRadius_mm * kSpotRadius_mm * 1e-6;
    world.emitters.push_back(
        lamp_of(DiscShape{glm::vec2(kSpotRadius_mm)}, at_mm, axis, static_cast<float>(candela / area_m2)));
    finish(world);
    return world;
}

}  // namespace

// L = rho E / pi, E = I / d^2: 1000 cd at 2 m is 250 lx.
TEST(Photometry, MatteLuminanceIsReflectanceTimesIlluminanceOverPi) {
    for (const float rho : {0.18f, 0.5f, 0.9f}) {
        const World world = matte_under_spot(rho, {0, 0, 2000}, {0, 0, -1}, 1000);
        const double seen =
            seen_cd_per_m2(world, {300, 100, 500}, glm::normalize(glm::vec3(-300, -100, -500)), 256);
        EXPECT_NEAR(seen, rho * 250 / kPi, rho * 250 / kPi * 0.005) << rho;
    }
}

TEST(Photometry, InverseSquare) {
    for (const float d_m : {1.0f, 2.0f, 3.0f, 5.0f}) {
        const World world = matte_under_spot(0.5f, {0, 0, 1000 * d_m}, {0, 0, -1}, 1000);
        const double expected = 0.5 * 1000 / (d_m * d_m) / kPi;
        EXPECT_NEAR(seen_cd_per_m2(world, {0, 0, 100}, {0, 0, -1}, 256), expected, expected * 0.005) << d_m;
    }
}

// E = I cos^3 / h^2 for a lamp of equal intensity towards the point: here aimed at it.
TEST(Photometry, CosineCubed) {
    for (const double degrees : {0.0, 20.0, 30.0, 45.0, 60.0}) {
        const double t = degrees * kPi / 180;
        const glm::vec3 at(2000 * std::tan(t), 0, 2000);
        const World world = matte_under_spot(0.5f, at, -glm::normalize(at), 1000);
        const double expected = 0.5 * 1000 * std::pow(std::cos(t), 3) / 4 / kPi;
        EXPECT_NEAR(seen_cd_per_m2(world, {0, 0, 100}, {0, 0, -1}, 256), expected, expected * 0.005)
            << degrees;
    }
}

// E = pi L sin^2(t) = pi L r^2 / (r^2 + d^2) on the axis of a disc of even luminance.
TEST(Photometry, DiscOnItsAxis) {
    for (const float radius_mm : {100.0f, 500.0f, 2000.0f}) {
        World world = empty_world();
        add(world, floor_square(400), glm::mat4(1), object_of(world, matte(0.5f)));
        world.emitters.push_back(lamp_of(DiscShape{glm::vec2(radius_mm)}, {0, 0, 2000}, {0, 0, -1}, 1000));
        // A cosine disc of constant luminance: luminance_cd_per_m2 divides the cosine out again.
        finish(world);
        const double r2 = radius_mm * radius_mm;
        const double expected = 0.5 * 1000 * r2 / (r2 + 2000.0 * 2000.0);
        EXPECT_NEAR(seen_cd_per_m2(world, {0, 0, 100}, {0, 0, -1}, 4096), expected, expected * 0.005)
            << radius_mm;
    }
}

// The same for a sphere of even luminance: E = pi L (r / d)^2, d to its centre (all of it above the horizon).
TEST(Photometry, SphereAbove) {
    World world = empty_world();
    add(world, floor_square(400), glm::mat4(1), object_of(world, matte(0.5f)));
    world.emitters.push_back(lamp_of(SphereShape{300}, {0, 0, 1000}, {0, 0, -1}, 2000));
    finish(world);
    const double expected = 0.5 * 2000 * 0.09;
    EXPECT_NEAR(seen_cd_per_m2(world, {0, 400, 100}, glm::normalize(glm::vec3(0, -400, -100)), 4096),
                expected, expected * 0.005);
}

// Element under the centre of a 2 x 2 rectangle at distance 1: configuration factor 0.554126 (Howell, "A
// Catalog of Radiation Heat Transfer Configuration Factors", C-4; computed from the closed form). E = pi L F.
TEST(Photometry, RectangleAbove) {
    World world = empty_world();
    add(world, floor_square(400), glm::mat4(1), object_of(world, matte(0.5f)));
    world.emitters.push_back(lamp_of(RectangleShape{glm::vec2(1000)}, {0, 0, 1000}, {0, 0, -1}, 1000));
    finish(world);
    const double expected = 0.5 * 1000 * 0.554126;
    EXPECT_NEAR(seen_cd_per_m2(world, {0, 0, 100}, {0, 0, -1}, 16384), expected, expected * 0.005);
}

// Lumens of a spot: cos^m beams have flux 2 pi I0 / (m + 1), m = ln 0.5 / ln cos(beam / 2); 24 degrees:
// 0.19410 sr.
TEST(Photometry, FluxOfSpots) {
    EXPECT_NEAR(flux_per_candela_sr(make_beam(24, 0)), 0.19410, 0.19410 * 2e-3);
    EXPECT_NEAR(flux_per_candela_sr(make_beam(36, 0)), 0.42417, 0.42417 * 2e-3);
    EXPECT_NEAR(flux_per_candela_sr(make_beam(120, 0)), 3.14159, 3.14159 * 2e-3);
    const BeamTable beam =
        make_beam(24, 50);  // 50 % at the beam angle, 10 % at the field angle: the definitions
    EXPECT_NEAR(beam.at(std::cos(static_cast<float>(12 * kPi / 180))), 0.5, 2e-3);
    EXPECT_NEAR(beam.at(std::cos(static_cast<float>(25 * kPi / 180))), 0.1, 2e-3);
}

// A closed box of one reflectance: mean indirect illuminance Phi rho / (A (1 - rho)); 4 m cube, 10 000 lm at
// its centre (principle of CIE 171:2006, 5.8). Mean over the six walls on a grid.
TEST(Photometry, ClosedBox) {
    for (const float rho : {0.3f, 0.7f}) {
        World world = empty_world();
        const Object wall = object_of(world, matte(rho));
        Mesh box = box_mesh(glm::dvec3(-2000), glm::dvec3(2000));
        for (auto& n : box.normals) n = -n;
        for (auto& t : box.triangles) std::swap(t.y, t.z);
        add(world, box, glm::mat4(1), wall);
        constexpr float kRadius_mm = 50;
        const double l = 10000 / (4 * kPi * kPi * kRadius_mm * kRadius_mm * 1e-6);
        world.emitters.push_back(
            lamp_of(SphereShape{kRadius_mm}, {0, 0, 0}, {0, 0, -1}, static_cast<float>(l)));
        finish(world);
        const Bvh bvh(world);
        double total = 0;
        double direct = 0;
        constexpr int kGrid = 24;
        for (int i = 0; i < kGrid * kGrid; ++i) {
            const float x = (static_cast<float>(i % kGrid) + 0.5f) / kGrid * 4000 - 2000;
            const float y = (static_cast<float>(i / kGrid) + 0.5f) / kGrid * 4000 - 2000;
            const auto e = illuminance_xyz(world, bvh, world.emitters, {x, y, -1999.9f}, {0, 0, 1}, 96,
                                           static_cast<std::uint32_t>(i));
            total += e[0].y;
            const double d2 = (x * x + y * y) * 1e-6 + 4;
            direct += 10000 / (4 * kPi) * 2 / std::pow(d2, 1.5);
        }
        const double expected = 10000 * rho / (96 * (1 - rho));
        EXPECT_NEAR((total - direct) / (kGrid * kGrid), expected, expected * 0.01) << rho;
    }
}
