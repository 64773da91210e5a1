// Judges: half a step of a logarithmic scale, in closed form, and arithmetic of areas. That a browser unpacks
// the very light is judged by page_in_browser.py, which compares its pixels with the PNG's.
#include "output/web/light_layers.h"

#include <gtest/gtest.h>

#include <cmath>

#include "tests/support/test_film.h"

namespace rakelight {
namespace {

TEST(LightLayers, RoundingIsHalfAStepAtMost) {
    std::vector<glm::vec3> light;
    for (int i = 0; i < 2000; ++i) {
        const float y = std::exp2(-20.f + 0.02f * static_cast<float>(i));  // 1e-6 to 1e6 cd/m2
        light.push_back(
            {y * (0.5f + 0.0007f * static_cast<float>(i)), y, y * (0.05f + 0.001f * static_cast<float>(i))});
    }
    const double luminance_step = std::exp2(0.5 / kLuminanceStepsAnOctave);
    const double ratio_step = std::exp2(0.5 / kRatioStepsAnOctave);
    const std::vector<glm::vec3> rounded = rounded_light(light);
    for (std::size_t i = 0; i < light.size(); ++i) {
        EXPECT_LE(std::abs(std::log2(rounded[i].y / light[i].y)), std::log2(luminance_step) + 1e-6) << i;
        // X and Z are rounded once, not once more with Y.
        EXPECT_LE(std::abs(std::log2(rounded[i].x / light[i].x)), std::log2(ratio_step) + 1e-6) << i;
        EXPECT_LE(std::abs(std::log2(rounded[i].z / light[i].z)), std::log2(ratio_step) + 1e-6) << i;
    }
}

TEST(LightLayers, DarknessStaysDark) {
    const std::vector<glm::vec3> rounded = rounded_light({{0, 0, 0}, {0, 2, 0}, {-1, -1, -1}});
    EXPECT_EQ(rounded[0], glm::vec3(0));
    EXPECT_EQ(rounded[1].x, 0);
    EXPECT_EQ(rounded[1].z, 0);
    EXPECT_EQ(rounded[2], glm::vec3(0));
}

TEST(LightLayers, GroupsWithoutLightAreLeftOut) {
    Film film = test::make_film(8, 6);
    film.groups.push_back("moon");
    film.xyz.emplace_back(film.pixel_count(), glm::vec3(0));
    const std::vector<LightLayer> layers = pack_light(film);
    ASSERT_EQ(layers.size(), 2u);
    EXPECT_EQ(layers[0].group, film.groups[0]);
    EXPECT_EQ(layers[1].group, film.groups[1]);
    // A zlib stream (RFC 1950) starts with 0x78 for deflate in a window of 32 KiB, and its first two bytes
    // are a multiple of 31.
    const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(layers[0].packed[i]); };
    EXPECT_EQ(byte(0), 0x78);
    EXPECT_EQ((256 * byte(0) + byte(1)) % 31, 0);
}

TEST(LightLayers, ShrinkingKeepsTheLight) {
    const Film film = test::make_film(40, 30);
    const Film small = shrink_light(film, 20);
    ASSERT_EQ(small.width, 20);
    ASSERT_EQ(small.height, 15);
    // Upper left pixel: the mean of four.
    const auto& light = film.xyz[0];
    const glm::vec3 mean = (light[0] + light[1] + light[40] + light[41]) / 4.f;
    EXPECT_NEAR(small.xyz[0][0].y, mean.y, 1e-5 * mean.y);
    EXPECT_EQ(shrink_light(film, 40).xyz, film.xyz);
}

}  // namespace
}  // namespace rakelight
