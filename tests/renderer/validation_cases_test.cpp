// Analytic cases for validating lighting programs, in the principle of CIE 171:2006, "Test cases to assess
// the accuracy of lighting computer programs", section 5. Every expected value is a closed
// form: configuration factors after Siegel and Howell, "Thermal Radiation Heat Transfer", and J. R. Howell,
// "A Catalog of Radiation Heat Transfer Configuration Factors". More of its cases: photometry_test.cpp (point
// and disc sources, closed box), daylight_test.cpp (sky through an opening),
// materials/optics/fresnel_test.cpp (glass by angle).
#include <gtest/gtest.h>

#include <array>
#include <numbers>

#include "renderer/light_meter.h"
#include "tests/support/small_world.h"

namespace rakelight {
namespace {

constexpr double kPi = std::numbers::pi;
constexpr double kUnit_mm = 1000;  // lengths of the closed forms
constexpr float kGlow_cd_per_m2 = 1000;

// A luminous rectangle of half sizes along u and v, shining towards u x v.
Emitter glowing(const glm::vec3& centre_mm, const glm::vec3& half_u_mm, const glm::vec3& half_v_mm) {
    const glm::vec3 u = glm::normalize(half_u_mm), v = glm::normalize(half_v_mm);
    Emitter e = lamp_of(RectangleShape{{glm::length(half_u_mm), glm::length(half_v_mm)}}, centre_mm,
                        glm::cross(u, v), kGlow_cd_per_m2);
    e.u = u;
    e.v = v;
    return e;
}

double lux_at(const World& world, const Bvh& bvh, const glm::vec3& at_mm, const glm::vec3& normal, int paths,
              std::uint32_t seed = 1) {
    return illuminance_xyz(world, bvh, world.emitters, at_mm, normal, paths, seed).at(0).y;
}

// Mean illuminance of the rectangle `corner + a u + b v`, 0 <= a, b <= 1, on a grid.
double mean_lux(const World& world, const glm::vec3& corner_mm, const glm::vec3& u_mm, const glm::vec3& v_mm,
                const glm::vec3& normal, int side = 40, int paths = 24) {
    const Bvh bvh(world);
    double sum = 0;
    for (int i = 0; i < side * side; ++i) {
        const float a = (static_cast<float>(i % side) + 0.5f) / static_cast<float>(side);
        const float b = (static_cast<float>(i / side) + 0.5f) / static_cast<float>(side);
        sum += lux_at(world, bvh, corner_mm + a * u_mm + b * v_mm, normal, paths,
                      static_cast<std::uint32_t>(i) + 1);
    }
    return sum / (side * side);
}

World lit_by(const Emitter& lamp) {
    World world = empty_world();
    world.emitters.push_back(lamp);
    return world;
}

// From an element to a rectangle that lies in a plane parallel to it, `c` away, one corner on its normal.
double corner_factor(double a, double b, double c) {
    const double x = a / c, y = b / c, p = std::sqrt(1 + x * x), q = std::sqrt(1 + y * y);
    return (x / p * std::atan(y / p) + y / q * std::atan(x / q)) / (2 * kPi);
}

// From an element to a rectangle in a plane at right angles to its own, `c` beside it: it starts abreast of
// the element, reaches `a` along the element's normal and `b` sideways.
double upright_factor(double a, double b, double c) {
    const double d = std::hypot(a, c);
    return (std::atan(b / c) - c / d * std::atan(b / d)) / (2 * kPi);
}

}  // namespace

// E = I cos^3(t) / h^2 under a source of 1000 cd all round, 2 m up: 250 lx below it, 162.380 lx at 30
// degrees.
TEST(ValidationCases, PointSourceOverAPlane) {
    constexpr float kRadius_mm = 5;
    World world = empty_world();
    world.emitters.push_back(lamp_of(SphereShape{kRadius_mm}, {0, 0, 2000}, {0, 0, -1},
                                     static_cast<float>(1000 / (kPi * kRadius_mm * kRadius_mm * 1e-6))));
    finish(world);
    const Bvh bvh(world);
    for (const auto& [degrees, lux] :
         {std::pair(0.0, 250.0), {30.0, 162.380}, {45.0, 88.3883}, {60.0, 31.25}})
        EXPECT_NEAR(lux_at(world, bvh, {2000 * std::tan(degrees * kPi / 180), 0, 0}, {0, 0, 1}, 64), lux,
                    0.005 * lux)
            << degrees;
}

// An element under a luminous rectangle: E = pi L F. Corners: 0.138532 under a unit square, 1 away; middle of
// 1 x 1, 2 away: 0.073478; of 2 x 2, 1 away: 0.554126.
TEST(ValidationCases, AreaSourceOverAnElement) {
    EXPECT_NEAR(corner_factor(1, 1, 1), 0.138532, 1e-6);
    EXPECT_NEAR(4 * corner_factor(0.5, 0.5, 2), 0.073478, 1e-6);
    EXPECT_NEAR(4 * corner_factor(1, 1, 1), 0.554126, 2e-6);
    struct Case {
        glm::vec2 centre, half;
        float up;
        double factor;
    };
    for (const Case& c : {Case{{500, 500}, {500, 500}, 1000, 0.138532},
                          {{0, 0}, {500, 500}, 2000, 0.073478},
                          {{0, 0}, {1000, 1000}, 1000, 0.554126}}) {
        World world = lit_by(glowing({c.centre, c.up}, {c.half.x, 0, 0}, {0, -c.half.y, 0}));
        finish(world);
        const Bvh bvh(world);
        const double expected = kPi * kGlow_cd_per_m2 * c.factor;
        EXPECT_NEAR(lux_at(world, bvh, {0, 0, 0}, {0, 0, 1}, 4096), expected, 0.005 * expected) << c.factor;
    }
}

// Parallel rectangles face to face: the mean illuminance of one by the other is pi L F.
TEST(ValidationCases, ParallelRectangles) {
    struct Case {
        double wide, deep, gap, factor;
    };
    for (const Case& c : {Case{1, 1, 1, 0.199825},
                          {1, 1, 2, 0.068590},
                          {1, 1, 0.5, 0.415253},
                          {2, 1, 1, 0.285875},
                          {4, 4, 1, 0.632036}}) {
        const glm::vec3 u(c.wide * kUnit_mm, 0, 0), v(0, c.deep * kUnit_mm, 0);
        World world = lit_by(glowing({0, 0, c.gap * kUnit_mm}, 0.5f * u, -0.5f * v));
        finish(world);
        const double expected = kPi * kGlow_cd_per_m2 * c.factor;
        EXPECT_NEAR(mean_lux(world, -0.5f * (u + v), u, v, {0, 0, 1}), expected, 0.005 * expected)
            << c.factor;
    }
}

// Unit squares at right angles with a common edge: 0.200044. With the one opposite they close a cube: 1.
TEST(ValidationCases, PerpendicularSquaresAndTheCube) {
    World world = lit_by(glowing({500, 500, 0}, {500, 0, 0}, {0, 500, 0}));  // the floor of a unit cube
    finish(world);
    const double side = mean_lux(world, {0, 0, 0}, {0, 1000, 0}, {0, 0, 1000}, {1, 0, 0}, 64, 32);
    const double above = mean_lux(world, {0, 0, 1000}, {1000, 0, 0}, {0, 1000, 0}, {0, 0, -1});
    const double all = kPi * kGlow_cd_per_m2;
    EXPECT_NEAR(side, all * 0.200044, all * 0.200044 * 0.01);
    EXPECT_NEAR(4 * side + above, all, 0.01 * all);
}

// Coaxial discs as far apart as their radius: (3 - sqrt 5) / 2 = 0.381966, by rings of equal area.
TEST(ValidationCases, CoaxialDiscs) {
    World world = lit_by(lamp_of(DiscShape{glm::vec2(1000)}, {0, 0, 1000}, {0, 0, -1}, kGlow_cd_per_m2));
    finish(world);
    const Bvh bvh(world);
    double sum = 0;
    constexpr int kRings = 64;
    for (int i = 0; i < kRings; ++i)
        sum += lux_at(world, bvh, {1000 * std::sqrt((i + 0.5) / kRings), 0, 0}, {0, 0, 1}, 512,
                      static_cast<std::uint32_t>(i) + 1);
    const double expected = kPi * kGlow_cd_per_m2 * 0.381966;
    EXPECT_NEAR(sum / kRings, expected, 0.005 * expected);
}

// A matte square, evenly lit from straight above, lights what stands upright beside it: E = rho E0 F. A wall
// with an edge in common: F = 0.200044. An element abreast of it, one unit away: 0.055734.
TEST(ValidationCases, DiffuseReflectorOntoAPerpendicularPlane) {
    EXPECT_NEAR(upright_factor(1, 1, 1), 0.055734, 1e-6);
    constexpr double kFar_m = 200;  // even to 4e-5 over the square
    constexpr double kE0_lux = 500;
    for (const float rho : {0.3f, 0.8f}) {
        World world = empty_world();
        add(world, rectangle_mesh({0, 0, 0}, {1000, 0, 0}, {0, 1000, 0}), glm::mat4(1),
            object_of(world, matte(rho)));
        // A little behind the receiving planes, which look to +x, so that they see only the square.
        const glm::vec3 at(-30, 500, 1000 * kFar_m);
        constexpr float kRadius_mm = 20;
        world.emitters.push_back(
            lamp_of(DiscShape{glm::vec2(kRadius_mm)}, at, {0, 0, -1},
                    static_cast<float>(kE0_lux * kFar_m * kFar_m / (kPi * kRadius_mm * kRadius_mm * 1e-6))));
        finish(world);
        const double wall = mean_lux(world, {0, 0, 0}, {0, 1000, 0}, {0, 0, 1000}, {1, 0, 0}, 40, 64);
        EXPECT_NEAR(wall, rho * kE0_lux * 0.200044, rho * kE0_lux * 0.200044 * 0.01) << rho;
        const Bvh bvh(world);
        const double element = lux_at(world, bvh, {0, 0, 1000}, {1, 0, 0}, 65'536);
        EXPECT_NEAR(element, rho * kE0_lux * 0.055734, rho * kE0_lux * 0.055734 * 0.01) << rho;
    }
}

// A black screen before a unit square that glows overhead. Seen from the origin the screen's upper edge, at
// x = s and half the height of the square, hides all of it beyond x = 2 s: the element level at the origin
// gets the corner factor of what is left, and the one upright there, facing the square's side, its upright
// factor. (Table 19 of the publication is in error for upright points; hence by algebra.)
TEST(ValidationCases, Obstruction) {
    for (const float s_mm : {100.0f, 250.0f, 400.0f}) {
        World world = lit_by(glowing({500, 500, 1000}, {500, 0, 0}, {0, -500, 0}));
        add(world, rectangle_mesh({s_mm, -9000, -9000}, {0, 18'000, 0}, {0, 0, 9500}), glm::mat4(1),
            object_of(world, matte(0)));
        finish(world);
        const Bvh bvh(world);
        const double left = 2 * s_mm / kUnit_mm;
        const double level = kPi * kGlow_cd_per_m2 * corner_factor(left, 1, 1);
        const double upright = kPi * kGlow_cd_per_m2 * upright_factor(left, 1, 1);
        EXPECT_NEAR(lux_at(world, bvh, {0, 0, 0}, {0, 0, 1}, 16'384), level, 0.01 * level) << s_mm;
        EXPECT_NEAR(lux_at(world, bvh, {0, 0, 0}, {1, 0, 0}, 16'384), upright, 0.01 * upright) << s_mm;
        // What a face turned away from the square sees of it: nothing.
        EXPECT_EQ(lux_at(world, bvh, {0, 0, 0}, {-1, 0, 0}, 64), 0);
    }
}

// An opening in a black room: what comes in through it falls on the other five sides, no more and no less.
// It glows evenly, so pi L A comes in.
TEST(ValidationCases, FluxThroughAnOpeningIsConserved) {
    const glm::vec3 size(4000, 3000, 2700);
    World world = lit_by(glowing({0.5f, 1500, 1500}, {0, 600, 0}, {0, 0, 500}));  // in the side x = 0
    finish(world);
    struct Side {
        glm::vec3 corner, u, v, normal;
    };
    const glm::vec3 x(size.x, 0, 0), y(0, size.y, 0), z(0, 0, size.z), none(0);
    double flux_lm = 0;
    for (const Side& side : {Side{x, y, z, {-1, 0, 0}},
                             {none, x, z, {0, 1, 0}},
                             {y, x, z, {0, -1, 0}},
                             {none, x, y, {0, 0, 1}},
                             {z, x, y, {0, 0, -1}}})
        flux_lm += mean_lux(world, side.corner, side.u, side.v, side.normal, 48, 8) * glm::length(side.u) *
                   glm::length(side.v) * 1e-6;
    const double expected = kPi * kGlow_cd_per_m2 * 1.2 * 1.0;
    EXPECT_NEAR(flux_lm, expected, 0.01 * expected);
}

namespace {

// A sphere of triangles, its matte inside lit from the middle. `area_m2` is that of the triangles.
World integrating_sphere(float rho, double& area_m2) {
    constexpr int kTurns = 96, kRings = 48;
    constexpr float kRadius_mm = 1000;
    Mesh mesh;
    for (int ring = 0; ring <= kRings; ++ring)
        for (int turn = 0; turn < kTurns; ++turn) {
            const double up = kPi * ring / kRings, round = 2 * kPi * turn / kTurns;
            const glm::vec3 out(std::sin(up) * std::cos(round), std::sin(up) * std::sin(round), std::cos(up));
            mesh.positions_mm.push_back(kRadius_mm * out);
            mesh.normals.push_back(-out);
        }
    const auto at = [&](int ring, int turn) {
        return static_cast<std::uint32_t>(ring * kTurns + turn % kTurns);
    };
    area_m2 = 0;
    for (int ring = 0; ring < kRings; ++ring)
        for (int turn = 0; turn < kTurns; ++turn) {
            const std::uint32_t a = at(ring, turn), b = at(ring, turn + 1), c = at(ring + 1, turn),
                                d = at(ring + 1, turn + 1);
            for (const glm::uvec3& t : {glm::uvec3(a, b, c), glm::uvec3(b, d, c)}) {
                const auto& p = mesh.positions_mm;
                const float twice = glm::length(glm::cross(p[t.y] - p[t.x], p[t.z] - p[t.x]));
                if (twice < 1e-3f) continue;  // at the poles
                mesh.triangles.push_back(t);
                area_m2 += twice / 2 * 1e-6;
            }
        }
    World world = empty_world();
    add(world, mesh, glm::mat4(1), object_of(world, matte(rho)));
    constexpr float kLamp_mm = 10;
    world.emitters.push_back(
        lamp_of(SphereShape{kLamp_mm}, {0, 0, 0}, {0, 0, -1},
                static_cast<float>(1000 / (4 * kPi * kPi * kLamp_mm * kLamp_mm * 1e-6))));
    finish(world);
    return world;
}

}  // namespace

// Inside a matte sphere with 1000 lm at its centre indirect light is E = flux rho / (A (1 - rho)), the same
// everywhere: for a radius of 1 m and rho 0.5, 0.9 that is 79.58, 716.20 lx. Direct light is
// flux / A.
TEST(ValidationCases, IntegratingSphere) {
    for (const float rho : {0.5f, 0.9f}) {
        double area_m2 = 0;
        const World world = integrating_sphere(rho, area_m2);
        EXPECT_NEAR(area_m2, 4 * kPi, 0.003 * 4 * kPi);
        const Bvh bvh(world);
        const double expected = 1000 / area_m2 / (1 - rho);  // direct and indirect
        double sum = 0;
        const std::array<glm::vec3, 4> ways{
            glm::vec3(1, 0, 0), {0.3f, 0.8f, 0.5f}, {-0.6f, 0.1f, -0.9f}, {0, -0.7f, 0.7f}};
        for (std::uint32_t i = 0; i < ways.size(); ++i) {
            const glm::vec3 out = glm::normalize(ways[i]);
            const double lux = lux_at(world, bvh, 995.0f * out, -out, 4096, i + 1);
            EXPECT_NEAR(lux, expected, 0.02 * expected) << rho << ' ' << i;
            sum += lux / static_cast<double>(ways.size());
        }
        const double indirect = sum - 1000 / area_m2, wanted = 1000 * rho / (area_m2 * (1 - rho));
        EXPECT_NEAR(indirect, wanted, 0.01 * wanted) << rho;
    }
}

}  // namespace rakelight
