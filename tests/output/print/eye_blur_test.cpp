#include "output/print/eye_blur.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace rakelight {
namespace {

// 1 mm / tan(1') = 3437.7 mm: one minute of arc is 1 / 3437.7 rad.
TEST(EyeBlur, AMillimetreIsPartedUpToThreePointFourMetres) {
    EXPECT_NEAR(resolve_distance_m(1), 3.4377, 1e-4);
    EXPECT_NEAR(resolve_distance_m(1.5), 1.5 * 3.4377, 2e-4);
}

// The Fourier transform of a Gaussian of deviation s keeps exp(-2 pi^2 s^2 f^2) of a wave of frequency f.
TEST(EyeBlur, AWaveFadesAsAGaussianMixesIt) {
    constexpr int kWidth = 240, kHeight = 8, kPeriod = 24;
    std::vector<float> wave(kWidth * kHeight);
    for (int i = 0; i < kWidth * kHeight; ++i)
        wave[static_cast<std::size_t>(i)] =
            static_cast<float>(1 + 0.5 * std::cos(2 * std::numbers::pi * (i % kWidth + 0.5) / kPeriod));
    constexpr double kMm_per_px = 0.2;
    for (const double metres : {1.0, 3.0, 8.0}) {
        const auto seen = seen_from(wave, kWidth, kHeight, kMm_per_px, metres);
        double sum = 0, amplitude = 0;
        for (int i = 0; i < kWidth; ++i) {
            const auto value = static_cast<double>(seen[static_cast<std::size_t>(3 * kWidth + i)]);
            sum += value;
            amplitude += value * std::cos(2 * std::numbers::pi * (i + 0.5) / kPeriod) * 2 / kWidth;
        }
        const double width_mm = metres * 1000 * std::tan(std::numbers::pi / 180 / 60);  // at half its height
        const double sigma = width_mm / 2.3548200450309493 / kMm_per_px;
        const double kept = std::exp(-2 * std::pow(std::numbers::pi * sigma / kPeriod, 2));
        // A kernel of whole pixels, cut at 3.5 deviations; and one under a fifth of a pixel is left out.
        EXPECT_NEAR(amplitude, 0.5 * kept, 0.01) << metres;
        EXPECT_NEAR(sum / kWidth, 1, 1e-5) << metres;
    }
}

TEST(EyeBlur, NoLightIsLostAtTheEdges) {
    constexpr int kWidth = 19, kHeight = 11;
    std::vector<glm::vec3> xyz(kWidth * kHeight, glm::vec3(0));
    xyz[0] = {1, 2, 3};
    xyz[kWidth * kHeight - 1] = {4, 5, 6};
    for (const double metres : {0.01, 2.0, 20.0}) {  // from nothing to far wider than the picture
        glm::dvec3 sum(0);
        for (const glm::vec3& v : seen_from(xyz, kWidth, kHeight, 0.5, metres)) sum += glm::dvec3(v);
        EXPECT_NEAR(sum.x, 5, 1e-4);
        EXPECT_NEAR(sum.z, 9, 1e-4);
    }
}

}  // namespace
}  // namespace rakelight
