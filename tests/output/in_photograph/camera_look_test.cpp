// Grain and sharpness of made photographs, whose noise and blur are known.
#include "output/in_photograph/camera_look.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <random>

#include "materials/colour/colorimetry.h"

namespace rakelight {
namespace {

constexpr int kWidth = 320, kHeight = 240;
const std::array<glm::dvec2, 4> kSheet{{{90, 60}, {220, 66}, {216, 170}, {86, 162}}};

double edge(double away_px, double sigma_px) {
    return 0.5 * std::erfc(away_px / (sigma_px * std::numbers::sqrt2));
}

// A dark wall with a light sheet, its edges blurred by a Gaussian, grain in encoded values with neighbours
// alike.
std::vector<glm::vec3> made(double sigma_px, double grain, bool smooth) {
    std::mt19937 chance(3);
    std::normal_distribution<double> noise(0, grain);
    std::vector<glm::dvec3> white(kWidth * kHeight);
    for (glm::dvec3& w : white) w = {noise(chance), noise(chance), 2 * noise(chance)};
    std::vector<glm::vec3> rgb(white.size());
    for (int y = 0; y < kHeight; ++y)
        for (int x = 0; x < kWidth; ++x) {
            double sheet = 1;
            for (std::size_t i = 0; i < 4; ++i) {
                const glm::dvec2 along = glm::normalize(kSheet[(i + 1) % 4] - kSheet[i]);
                const glm::dvec2 to = glm::dvec2(x + 0.5, y + 0.5) - kSheet[i];
                sheet *= edge(along.y * to.x - along.x * to.y, sigma_px);
            }
            const double light = 0.2 + 0.4 * sheet;
            const EncodedSrgb e = encode({light, light, light});
            const std::size_t i = static_cast<std::size_t>(y) * kWidth + x;
            const glm::dvec3 n =
                smooth && x > 0 && y > 0
                    ? 0.5 * (white[i] + white[i - 1] + white[i - kWidth] + white[i - kWidth - 1])
                    : white[i];
            const LinearRgb linear = decode({e.r + n.x, e.g + n.y, e.b + n.z});
            rgb[i] = {linear.r, linear.g, linear.b};
        }
    return rgb;
}

CameraLook look_at(const std::vector<glm::vec3>& rgb) {
    const std::vector<std::uint8_t> spoilt(rgb.size(), 0);
    return look_of({kWidth, kHeight, &rgb, &spoilt}, kSheet);
}

}  // namespace

TEST(CameraLook, FindsHowSoftEdgesAre) {
    for (const double sigma_px : {0.5, 0.9, 1.6, 2.5}) {
        const CameraLook look = look_at(made(sigma_px, 0.004, false));
        ASSERT_TRUE(look.blur_px);
        EXPECT_NEAR(*look.blur_px, std::hypot(sigma_px, 0), 0.12 * sigma_px + 0.03);
    }
}

TEST(CameraLook, FindsTheGrain) {
    for (const double sd : {0.004, 0.02}) {
        const CameraLook look = look_at(made(1, sd, false));
        EXPECT_NEAR(look.grain[0][0] / sd, 1, 0.12);
        EXPECT_NEAR(std::hypot(look.grain[0][2], look.grain[1][2], look.grain[2][2]) / (2 * sd), 1, 0.12);
        EXPECT_NEAR(look.grain_along, 0, 0.05);
    }
}

TEST(CameraLook, SaysNothingOfEdgesItDoesNotSee) {
    const std::vector<glm::vec3> flat(kWidth * kHeight, glm::vec3(0.3f));
    const CameraLook look = look_at(flat);
    EXPECT_FALSE(look.blur_px);
    EXPECT_LT(look.grain_sd(), 1e-5);
}

// Grain that is laid on has the spread and the likeness of neighbours that were found.
TEST(CameraLook, LaysOnWhatItFound) {
    const CameraLook look = look_at(made(1, 0.015, true));
    EXPECT_GT(look.grain_along, 0.3);
    const GrainOfCamera grain(look, 7);
    EXPECT_EQ(grain.at(12, 9), GrainOfCamera(look, 7).at(12, 9));
    EXPECT_NE(grain.at(12, 9), GrainOfCamera(look, 8).at(12, 9));
    double square = 0, along = 0, mean = 0, blue = 0;
    constexpr int kSide = 160;
    for (int y = 0; y < kSide; ++y)
        for (int x = 0; x < kSide; ++x) {
            const glm::dvec3 n = grain.at(x, y);
            square += n.x * n.x, mean += n.x, blue += n.z * n.z;
            along += n.x * grain.at(x + 1, y).x;
        }
    const double count = kSide * kSide;
    EXPECT_NEAR(std::sqrt(square / count) / look.grain[0][0], 1, 0.05);
    const double found_blue = std::hypot(look.grain[0][2], look.grain[1][2], look.grain[2][2]);
    EXPECT_NEAR(std::sqrt(blue / square), found_blue / look.grain[0][0], 0.05);
    EXPECT_NEAR(along / square, look.grain_along, 0.05);
    EXPECT_NEAR(mean / count, 0, 0.001);
}

}  // namespace rakelight
