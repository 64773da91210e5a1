// The CIE skies against their closed forms. Overcast: Moon and Spencer 1942. Clear: the formula that the CIE
// published before the standard (CIE 22, 1973; R. Kittler 1967), with its own rounded constants.
#include "scene/light/sky.h"

#include <gtest/gtest.h>

#include <numbers>

using namespace rakelight;

namespace {

constexpr double kPi = std::numbers::pi;

glm::vec3 toward(double altitude_deg, double azimuth_deg) {
    return glm::vec3(direction_in_room(altitude_deg, azimuth_deg, 0));
}

}  // namespace

TEST(Sky, OvercastIsThreeTimesAsBrightOverhead) {
    const SkyView sky = make_sky(SkyKind::overcast, {0, 1, 0}, 10'000, 0);
    const double zenith = luminance_cd_per_m2(sky, {0, 1, 0});
    EXPECT_NEAR(zenith / luminance_cd_per_m2(sky, toward(1e-4, 77)), 3, 1e-4);
    EXPECT_NEAR(10'000 / zenith, 7 * kPi / 9, 1e-3);  // E = 7/9 pi Lz
}

// Upright plane under an overcast sky: Lz 2/3 (pi/4 + 2/3), which is 0.396 of the level one; the ground adds
// half of pi times its luminance.
TEST(Sky, OvercastOnAnUprightPlane) {
    const SkyView sky = make_sky(SkyKind::overcast, {0, 1, 0}, 10'000, 500);
    const double zenith = luminance_cd_per_m2(sky, {0, 1, 0});
    for (const glm::dvec3& normal : {glm::dvec3(1, 0, 0), glm::dvec3(0.6, 0, -0.8)})
        EXPECT_NEAR(plane_lux(sky, normal), zenith * 2 / 3 * (kPi / 4 + 2.0 / 3) + 500 * kPi / 2, 6);
    EXPECT_NEAR(plane_lux(sky, {0, -1, 0}), 500 * kPi, 1);
}

TEST(Sky, ClearSkyIsThatOfTheOlderFormula) {
    for (const double sun_deg : {10.0, 35.0, 60.0}) {
        const glm::vec3 sun = toward(sun_deg, 140);
        const SkyView sky = make_sky(SkyKind::clear, sun, 12'000, 0);
        const double zenith = luminance_cd_per_m2(sky, {0, 1, 0});
        const double zs = glm::radians(90 - sun_deg);
        for (const double altitude : {5.0, 20.0, 45.0, 80.0})
            for (const double azimuth : {0.0, 100.0, 140.0, 260.0}) {
                const glm::vec3 d = toward(altitude, azimuth);
                const double chi = std::acos(std::min(1.0f, glm::dot(d, sun)));
                const auto ring = [](double x) {
                    return 0.91 + 10 * std::exp(-3 * x) + 0.45 * std::cos(x) * std::cos(x);
                };
                const double expected = ring(chi) * (1 - std::exp(-0.32 / std::sin(glm::radians(altitude)))) /
                                        (0.27385 * ring(zs));
                EXPECT_NEAR(luminance_cd_per_m2(sky, d) / zenith, expected, 0.002 * expected)
                    << sun_deg << ' ' << altitude << ' ' << azimuth;
            }
    }
}

// The scale: luminance times the sine of altitude over the hemisphere is what was asked for. Judged by steps
// of the altitude itself, another rule than the program's.
TEST(Sky, GivesTheLuxItWasMadeFor) {
    for (const SkyKind kind : {SkyKind::overcast, SkyKind::clear}) {
        const SkyView sky = make_sky(kind, toward(28, 200), 9'000, 0);
        constexpr int kSteps = 300;
        double total = 0;
        for (int i = 0; i < kSteps; ++i)
            for (int j = 0; j < kSteps; ++j) {
                const double altitude = (i + 0.5) * 90 / kSteps;
                const double g = glm::radians(altitude);
                total += luminance_cd_per_m2(sky, toward(altitude, (j + 0.5) * 360 / kSteps)) * std::sin(g) *
                         std::cos(g);
            }
        total *= glm::radians(90.0 / kSteps) * glm::radians(360.0 / kSteps);
        EXPECT_NEAR(total, 9'000, 9);
    }
}

// A panel that looks south hangs on a north wall: its viewer faces north, east is to the right.
TEST(Sky, CompassOfTheRoom) {
    const auto near = [](const glm::dvec3& a, const glm::dvec3& b) { return glm::distance(a, b) < 1e-12; };
    EXPECT_TRUE(near(direction_in_room(0, 180, 180), {0, 0, 1}));
    EXPECT_TRUE(near(direction_in_room(0, 90, 180), {1, 0, 0}));
    EXPECT_TRUE(near(direction_in_room(0, 0, 180), {0, 0, -1}));
    EXPECT_TRUE(near(direction_in_room(90, 33, 180), {0, 1, 0}));
    EXPECT_TRUE(near(direction_in_room(0, 0, 90), {1, 0, 0}));  // looks east: north is the viewer's right
}
