// Judges: arithmetic of areas, and that a mean neither wins nor loses light.
#include "output/print/area_mean.h"

#include <gtest/gtest.h>

#include <numeric>

namespace rakelight {
namespace {

TEST(AreaMean, FitsTheLongerSideAndNeverEnlarges) {
    EXPECT_EQ(fit_within({1200, 900}, 600), (PixelSize{600, 450}));
    EXPECT_EQ(fit_within({300, 1200}, 600), (PixelSize{150, 600}));
    EXPECT_EQ(fit_within({300, 200}, 600), (PixelSize{300, 200}));
    EXPECT_EQ(fit_within({5000, 1}, 100), (PixelSize{100, 1}));
}

TEST(AreaMean, BlocksAreAveraged) {
    const std::vector<float> from{1, 3, 5, 7,  //
                                  5, 7, 9, 11};
    EXPECT_EQ(area_mean(from, {4, 2}, {2, 1}), (std::vector<float>{4, 8}));
}

TEST(AreaMean, PixelsThatAreCutCountByTheirShare) {
    // Three pixels to two: each new one covers one and a half.
    const std::vector<float> means = area_mean(std::vector<float>{3, 6, 9}, {3, 1}, {2, 1});
    EXPECT_NEAR(means[0], (3 + 0.5 * 6) / 1.5, 1e-6);
    EXPECT_NEAR(means[1], (0.5 * 6 + 9) / 1.5, 1e-6);
}

TEST(AreaMean, NoLightIsLost) {
    std::vector<float> from(37 * 23);
    for (std::size_t i = 0; i < from.size(); ++i) from[i] = static_cast<float>(i * 7919 % 101);
    const std::vector<float> to = area_mean(from, {37, 23}, {10, 6});
    const auto mean = [](const std::vector<float>& v) {
        return std::accumulate(v.begin(), v.end(), 0.0) / static_cast<double>(v.size());
    };
    EXPECT_NEAR(mean(to), mean(from), 1e-4 * mean(from));
}

}  // namespace
}  // namespace rakelight
