// ISO 2720:1974 (K = 12.5, C = 250, S = 100): L = 2^EV K / S, E = 2^EV C / S.
#include "output/print/exposure.h"

#include <gtest/gtest.h>

#include <cmath>

#include "tests/support/test_film.h"

namespace rakelight {
namespace {

TEST(Exposure, LuminanceOfExposureValuesOfIso2720) {
    const double table[][2] = {{0, 0.125}, {5, 4}, {8, 32}, {10, 128}, {12, 512}, {15, 4096}};
    for (const auto& [ev, luminance] : table) {
        EXPECT_NEAR(middle_luminance_cd_per_m2(ev), luminance, 1e-9 * luminance);
        EXPECT_NEAR(ev100_of(luminance), ev, 1e-9);
    }
}

// Lambert: L = rho E / pi; 0.18 * 200 / pi = 11.459 cd/m2; log2(11.459 / 0.125) = 6.518.
TEST(Exposure, GreyCardUnderTwoHundredLux) {
    EXPECT_NEAR(card_luminance_cd_per_m2(200), 11.459, 1e-3);
    EXPECT_NEAR(ev100_of(card_luminance_cd_per_m2(200)), 6.518, 1e-3);
}

// A logarithmic mean by hand: half 1 and half 100 cd/m2 give 10.
TEST(Exposure, EyeTakesTheLogarithmicMeanOfItsRows) {
    Film film = test::make_film(2, 3, {1, 3});
    film.groups = {"a"};
    film.xyz.assign(1, std::vector<glm::vec3>(6, glm::vec3(0)));
    for (std::size_t i = 2; i < 6; ++i) film.xyz[0][i].y = i % 2 == 0 ? 1.0f : 100.0f;
    EXPECT_NEAR(eye_luminance_cd_per_m2(film), 10, 1e-6);
}

TEST(Exposure, EyeInTheDarkStaysFinite) {
    Film film = test::make_film(2, 2);
    film.xyz.assign(2, std::vector<glm::vec3>(4, glm::vec3(0)));
    EXPECT_NEAR(eye_luminance_cd_per_m2(film), 0.005, 1e-9);  // lower end of mesopic vision, CIE 191:2010
}

// CIE 159:2004: with F = 1, D tends to 1 for bright light and is 1 - exp(-42 / 92) / 3.6 = 0.8240 in the
// dark.
TEST(Exposure, AdaptationOfCiecam02) {
    EXPECT_NEAR(adaptation_degree(0), 0.8240, 1e-4);
    EXPECT_NEAR(adaptation_degree(1e5), 1, 1e-9);
    EXPECT_LT(adaptation_degree(10), adaptation_degree(100));
}

}  // namespace
}  // namespace rakelight
