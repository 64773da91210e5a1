#include "output/glare/luminance_map.h"

#include <gtest/gtest.h>

#include "output/glare/share_map.h"

namespace rakelight {
namespace {

// Green 2011, section 2: his spiral rises evenly in 0.30 R + 0.59 G + 0.11 B, from black to white.
TEST(LuminanceColour, RisesEvenly) {
    for (int i = 0; i <= 100; ++i) {
        const double x = i / 100.0;
        const EncodedSrgb c = luminance_colour(x);
        EXPECT_NEAR(0.30 * c.r + 0.59 * c.g + 0.11 * c.b, x, 0.012) << x;
    }
    EXPECT_EQ(luminance_colour(0).g, 0);
    EXPECT_NEAR(luminance_colour(1).b, 1, 1e-12);
}

// One hue, the lighter the less is mirrored: no colour of it stands on the luminance scale but white.
TEST(ShareColour, IsOneHueFromWhiteToDeepOrange) {
    double last = 2;
    for (int i = 0; i <= 10; ++i) {
        const EncodedSrgb c = share_colour(i / 10.0);
        const double grey = 0.30 * c.r + 0.59 * c.g + 0.11 * c.b;
        EXPECT_LT(grey, last);
        last = grey;
        if (i == 0) continue;
        EXPECT_GT(c.r, c.g);
        EXPECT_GT(c.g, c.b);
        EXPECT_NEAR((c.g - c.b) / (c.r - c.b),
                    (share_colour(1).g - share_colour(1).b) / (share_colour(1).r - share_colour(1).b), 1e-9);
    }
    EXPECT_EQ(share_colour(0).b, 1);
    EXPECT_EQ(share_colour(3).r, share_colour(1).r);
}

TEST(LuminanceScale, IsLogarithmic) {
    const LuminanceScale scale{-1, 3};
    EXPECT_EQ(scale.at(0), 0);
    EXPECT_EQ(scale.at(0.1), 0);
    EXPECT_NEAR(scale.at(10), 0.5, 1e-12);
    EXPECT_EQ(scale.at(1e6), 1);
}

// Green's equation (2) with his usual figures, worked by hand in the middle of the scale: a turn of
// 360 (0.5 / 3 - 1.5 / 2) = -210 degrees, a swing of 0.5 (1 - 0.5) / 2 = 0.125; so R = 0.5 + 0.125
// (0.14861 * 0.86603 + 1.78277 * 0.5), G = 0.5 + 0.125 (0.29227 * 0.86603 - 0.90649 * 0.5), B = 0.5 - 0.125 *
// 1.97294 * 0.86603.
TEST(LuminanceScale, HoldsTheBrightestPixel) {
    Film film;
    film.width = film.height = 2;
    film.groups = {"a", "b"};
    film.xyz.assign(2, std::vector<glm::vec3>(4, glm::vec3(0)));
    film.xyz[0][1] = glm::vec3(11.622777f);  // with the 20 below 10^1.5 cd/m2
    film.xyz[1][1] = glm::vec3(20);
    film.xyz[1][3] = glm::vec3(2500);
    const LuminanceScale scale = scale_for(film);
    EXPECT_EQ(scale.high, 4);
    EXPECT_EQ(scale.low, -1);
    const Print map = luminance_map(film, scale);
    ASSERT_EQ(map.rgb.size(), 12u);
    for (const std::size_t black : {0u, 1u, 2u, 6u, 7u, 8u}) EXPECT_EQ(map.rgb[black], 0);
    EXPECT_NEAR(map.rgb[3], 0.62751, 1e-4);
    EXPECT_NEAR(map.rgb[4], 0.47498, 1e-4);
    EXPECT_NEAR(map.rgb[5], 0.28643, 1e-4);
    // log10(2500) = 3.39794, of the five decades from -1: the grey of any colour is its place on the scale.
    EXPECT_NEAR(0.30f * map.rgb[9] + 0.59f * map.rgb[10] + 0.11f * map.rgb[11], 4.39794 / 5, 0.012);
}

// One glint in a few thousand pixels does not take the colours from all others.
TEST(LuminanceScale, LeavesSingleGlintsOut) {
    Film film;
    film.width = film.height = 60;
    film.groups = {"a"};
    film.xyz.assign(1, std::vector<glm::vec3>(film.pixel_count(), glm::vec3(30)));
    for (std::size_t i = 0; i < 3; ++i) film.xyz[0][i] = glm::vec3(1e6f);
    EXPECT_EQ(scale_for(film).high, 2);
    film.xyz[0][3] = glm::vec3(1e6f);
    EXPECT_EQ(scale_for(film).high, 6);
}

}  // namespace
}  // namespace rakelight
