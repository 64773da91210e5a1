#include "output/glare/luminance_map.h"

#include <gtest/gtest.h>

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

TEST(LuminanceScale, IsLogarithmic) {
    const LuminanceScale scale{-1, 3};
    EXPECT_EQ(scale.at(0), 0);
    EXPECT_EQ(scale.at(0.1), 0);
    EXPECT_NEAR(scale.at(10), 0.5, 1e-12);
    EXPECT_EQ(scale.at(1e6), 1);
}

TEST(LuminanceScale, HoldsTheBrightestPixel) {
    Film film;
    film.width = film.height = 2;
    film.groups = {"a", "b"};
    film.xyz.assign(2, std::vector<glm::vec3>(4, glm::vec3(1)));
    film.xyz[1][3] = glm::vec3(2500);
    const LuminanceScale scale = scale_for(film);
    EXPECT_EQ(scale.high, 4);
    EXPECT_EQ(scale.low, -1);
    const Print map = luminance_map(film, scale);
    ASSERT_EQ(map.rgb.size(), 12u);
    const EncodedSrgb c = luminance_colour(scale.at(2501));
    EXPECT_FLOAT_EQ(map.rgb[10], static_cast<float>(c.g));
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
