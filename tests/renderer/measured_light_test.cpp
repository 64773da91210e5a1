// Light of measured lamps and of lamps that are bodies, against the closed forms of photometry.
#include <gtest/gtest.h>

#include <numbers>

#include "renderer/light_meter.h"
#include "tests/support/lamp_samples.h"
#include "tests/support/small_world.h"

using namespace rakelight;

namespace {

constexpr double kPi = std::numbers::pi;

double seen_on_floor(const Emitter& lamp, int paths) {
    World world = empty_world();
    add(world, floor_square(400), glm::mat4(1), object_of(world, matte(0.5f)));
    world.emitters.push_back(lamp);
    finish(world);
    return seen_cd_per_m2(world, {-30, 20, 100}, glm::normalize(glm::vec3(30, -20, -100)), paths);
}

// The small worlds have z up: a lamp so far above their floor, looking down.
Lamp above(Lamp lamp, const glm::dvec3& at_mm) {
    lamp.at_mm = at_mm;
    lamp.aim_mm = at_mm - glm::dvec3(0, 0, 1);
    return lamp;
}

Emitter body(const EmitterShape& shape, const glm::vec3& centre_mm, float cd_per_m2) {
    Emitter e = lamp_of(shape, centre_mm, {0, 0, 1}, cd_per_m2);
    e.u = {1, 0, 0};
    e.v = {0, 1, 0};
    return e;
}

}  // namespace

// E = I(theta, C) cos^3 / h^2 under a small measured lamp 2 m up, for every type of photometry.
TEST(MeasuredLight, IlluminanceUnderAFileLamp) {
    for (const int type : {1, 2, 3}) {
        FileMaker maker{.type = type, .vertical = angles(0, 90, 5), .horizontal = angles(0, 345, 15)};
        if (type != 1) maker.vertical = maker.horizontal = angles(-90, 90, 5);
        const auto c = [&](double v, double h) {
            if (type == 1) return 600 * cos_deg(v) + 200 * sin_deg(v) * cos_deg(h - 30) * cos_deg(v);
            return (600 + 2 * v + h) * cos_deg(v) * cos_deg(h);
        };
        Lamp lamp = measured_lamp(maker.text([&](double v, double h) { return std::max(0.0, c(v, h)); }));
        lamp.width_mm = 6;
        for (const glm::dvec3& at : {glm::dvec3(0, 0, 2000), glm::dvec3(900, 0, 2000),
                                     glm::dvec3(-700, 1100, 2000), glm::dvec3(200, -1900, 2000)}) {
            const Emitter e = make_emitter(above(lamp, at), glm::dvec3(0), 0);
            const glm::vec3 down = glm::normalize(-glm::vec3(at));
            const auto& f = e.optics->frame;
            const double candela = lamp.measured->intensity.at(
                {glm::dot(down, f[0]), glm::dot(down, f[1]), glm::dot(down, f[2])});
            const double d_m = glm::length(at) / 1000;
            const double expected = 0.5 / kPi * candela * (at.z / glm::length(at)) / (d_m * d_m);
            EXPECT_NEAR(seen_on_floor(e, 512), expected, 0.005 * expected)
                << type << ' ' << at.x << ' ' << at.y;
        }
    }
}

// A small bulb far away: E = I / d^2 for a sphere of even luminance, I = L pi r^2.
TEST(MeasuredLight, SmallSphereFarAway) {
    for (const float radius_mm : {1.0f, 3.0f, 30.0f}) {
        const Emitter e = lamp_of(SphereShape{radius_mm}, {0, 0, 3000}, {0, 0, -1}, 1e6f);
        const double expected = 0.5 * 1e6 * radius_mm * radius_mm / 9e6;
        EXPECT_NEAR(seen_on_floor(e, 512), expected, 0.005 * expected) << radius_mm;
    }
}

// Under the centre of a box 2 m square and 1 m above the floor only its bottom shows: E = pi L F, F =
// 0.554126. A unit square that stands on the floor 1 m away, its corner at the foot of the normal: F =
// 0.055734 (Howell, "A Catalog of Radiation Heat Transfer Configuration Factors"; from the closed forms).
TEST(MeasuredLight, BoxOfEvenLuminance) {
    const double below = seen_on_floor(body(BoxShape{{1000, 1000, 500}}, {0, 0, 1500}, 1000), 16384);
    EXPECT_NEAR(below, 0.5 * 1000 * 0.554126, 0.5 * 1000 * 0.554126 * 0.005);
    World world = empty_world();
    add(world, floor_square(1), glm::mat4(1), object_of(world, matte(0.5f)));
    world.emitters.push_back(body(BoxShape{{250, 500, 500}}, {1250, 500, 500}, 1000));
    finish(world);
    const double aside = seen_cd_per_m2(world, {0, 0, 100}, {0, 0, -1}, 16384);
    EXPECT_NEAR(aside, 0.5 * 1000 * 0.055734, 0.5 * 1000 * 0.055734 * 0.01);
}

// A standing cylinder, near: the sum over its surface of L cos cos / d^2, by the midpoint rule.
TEST(MeasuredLight, CylinderOfEvenLuminance) {
    const glm::dvec3 centre(700, 0, 600);
    const double r = 300, half = 400;
    double sum = 0;
    constexpr int kTurns = 2000, kHeights = 1000;
    for (int i = 0; i < kTurns; ++i)
        for (int k = 0; k < kHeights; ++k) {
            const double turn = 2 * kPi * (i + 0.5) / kTurns;
            const glm::dvec3 n(std::cos(turn), std::sin(turn), 0);
            const glm::dvec3 p = centre + r * n + glm::dvec3(0, 0, half * (2 * (k + 0.5) / kHeights - 1));
            const double facing = -glm::dot(p, n);
            const double d2 = glm::dot(p, p);
            if (facing > 0 && p.z > 0)
                sum += facing * p.z / (d2 * d2) * (2 * kPi * r / kTurns) * (2 * half / kHeights);
        }
    for (int i = 0; i < 1000; ++i)
        for (int k = 0; k < 500; ++k) {  // its lower end
            const double turn = 2 * kPi * (k + 0.5) / 500, q = r * (i + 0.5) / 1000;
            const glm::dvec3 p = centre + glm::dvec3(q * std::cos(turn), q * std::sin(turn), -half);
            const double d2 = glm::dot(p, p);
            sum += p.z * p.z / (d2 * d2) * (r / 1000) * (2 * kPi * q / 500);
        }
    const double expected = 0.5 / kPi * 1000 * sum;
    World world = empty_world();
    add(world, floor_square(1), glm::mat4(1), object_of(world, matte(0.5f)));
    world.emitters.push_back(
        body(CylinderShape{static_cast<float>(r), static_cast<float>(half)}, centre, 1000));
    finish(world);
    EXPECT_NEAR(seen_cd_per_m2(world, {0, 0, 100}, {0, 0, -1}, 16384), expected, 0.01 * expected);
}

// What is aimed at is met, at that distance and with that density; the mean of 1 / pdf is the solid angle,
// here of directions that meet the body out of all.
TEST(MeasuredLight, AimingAtBodiesAgreesWithMeetingThem) {
    for (const EmitterShape& shape :
         {EmitterShape(BoxShape{{200, 120, 350}}), EmitterShape(CylinderShape{200, 350})}) {
        Emitter e = body(shape, {400, 300, 900}, 1000);
        const Basis tilted(glm::normalize(glm::vec3(1, 2, 3)));
        e.u = tilted.x, e.v = tilted.y, e.axis = tilted.z;
        double inverse = 0;
        constexpr int kSide = 200;
        for (int i = 0; i < kSide * kSide; ++i) {
            const glm::vec2 u((static_cast<float>(i % kSide) + 0.5f) / kSide,
                              (static_cast<float>(i / kSide) + 0.5f) / kSide);
            const LiSample aim = sample_li(e, glm::vec3(0), u);
            ASSERT_GT(aim.pdf, 0);
            inverse += 1 / aim.pdf;
            LampHit hit{.distance_mm = 1e9f};
            intersect(e, 7, glm::vec3(0), aim.direction, hit);
            if (hit.lamp != 7) continue;  // a grazing edge
            ASSERT_NEAR(hit.distance_mm, aim.distance_mm, 0.02);
            ASSERT_NEAR(pdf_li(e, glm::vec3(0), aim.direction, aim.distance_mm), aim.pdf, 0.01 * aim.pdf);
        }
        int met = 0;
        constexpr int kAll = 4'000'000;
        for (int i = 0; i < kAll; ++i) {  // even over the sphere: Fibonacci's lattice
            const double z = 2 * (i + 0.5) / kAll - 1,
                         turn = 2 * kPi * std::fmod(i * 0.6180339887498949, 1.0);
            const double r = std::sqrt(1 - z * z);
            const glm::vec3 way(r * std::cos(turn), r * std::sin(turn), z);
            met += intersect(e.shape, e, glm::vec3(0), way).distance_mm > 0;
        }
        const double angle = 4 * kPi * met / kAll;
        EXPECT_NEAR(inverse / (kSide * kSide), angle, 0.003 * angle);
    }
}

// A lamp seen in a mirror has its own luminance: candela over projected area.
TEST(MeasuredLight, LampSeenDirectly) {
    const FileMaker maker{.opening = "-.2 -.2 0", .vertical = angles(0, 90, 2), .horizontal = {0}};
    const Lamp lamp =
        above(measured_lamp(maker.text([](double v, double) { return 100 * cos_deg(v); })), {0, 0, 2000});
    World world = empty_world();
    add(world, floor_square(10), glm::mat4(1), object_of(world, matte(0.5f)));
    world.emitters.push_back(make_emitter(lamp, glm::dvec3(0), 0));
    finish(world);
    const double expected = 100 / (kPi * 0.01);
    EXPECT_NEAR(seen_cd_per_m2(world, {300, 0, 1500}, glm::normalize(glm::vec3(-300, 0, 500)), 4), expected,
                0.005 * expected);
}
