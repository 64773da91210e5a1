#include "output/study/values.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace rakelight {
namespace {

double left_over(std::span<const float> lightness, std::span<const double> levels) {
    double sum = 0;
    for (const float l : lightness) {
        const double d = static_cast<double>(l) - levels[nearest_level(levels, static_cast<double>(l))];
        sum += d * d;
    }
    return sum / static_cast<double>(lightness.size());
}

// Max, "Quantizing for minimum distortion", IRE Trans. Inf. Theory 6, 1960, table I: the best three levels of
// a normal distribution lie at its mean and 1.224 standard deviations from it, the best five at 0, 0.7646
// and 1.724.
TEST(Values, LevelsOfANormalDistributionAreThoseOfThePublishedTable) {
    std::mt19937 random(7);
    std::normal_distribution<float> normal(50, 10);
    std::vector<float> lightness(400'000);
    for (float& l : lightness) l = normal(random);
    const auto three = value_levels(lightness, 3), five = value_levels(lightness, 5);
    ASSERT_EQ(three.size(), 3u);
    ASSERT_EQ(five.size(), 5u);
    const double expected3[] = {-1.224, 0, 1.224}, expected5[] = {-1.724, -0.7646, 0, 0.7646, 1.724};
    for (std::size_t i = 0; i < 3; ++i) EXPECT_NEAR(three[i], 50 + 10 * expected3[i], 0.3);
    for (std::size_t i = 0; i < 5; ++i) EXPECT_NEAR(five[i], 50 + 10 * expected5[i], 0.3);
}

// No other three levels of a coarse grid leave less.
TEST(Values, NothingNearerIsFoundByTryingAll) {
    std::mt19937 random(3);
    std::vector<float> lightness;
    for (int i = 0; i < 300; ++i)
        lightness.push_back(static_cast<float>(random() % 3 == 0 ? random() % 20 : 55 + random() % 40));
    const double least = left_over(lightness, value_levels(lightness, 3));
    for (double a = 0; a < 100; a += 4)
        for (double b = a + 4; b < 100; b += 4)
            for (double c = b + 4; c < 100; c += 4) {
                const double levels[] = {a, b, c};
                EXPECT_GE(left_over(lightness, levels), least - 1e-9);
            }
}

TEST(Values, FewLightnessesGiveFewLevels) {
    const std::vector<float> two{20, 20, 80};
    const auto levels = value_levels(two, 5);
    ASSERT_EQ(levels.size(), 2u);
    EXPECT_DOUBLE_EQ(levels[0], 20);
    EXPECT_DOUBLE_EQ(levels[1], 80);
    EXPECT_TRUE(value_levels({}, 3).empty());
}

}  // namespace
}  // namespace rakelight
