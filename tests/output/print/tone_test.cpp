// Closed forms: straight below the shoulder, no kink at its start, hue kept as the dominant wavelength is
// (grey is mixed in, nothing else), luminance as the shoulder says (IEC 61966-2-1 luminance weights by
// colorimetry.h).
#include "output/print/tone.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace rakelight {
namespace {

TEST(Tone, StraightThenASmoothRise) {
    for (const double y : {0.0, 0.01, 0.18, 0.5, 0.8}) EXPECT_DOUBLE_EQ(shoulder(y), y);
    const double h = 1e-6;
    EXPECT_NEAR((shoulder(0.8 + h) - shoulder(0.8)) / h, 1, 1e-4);
    for (double y = 0; y < 4; y += 0.01) EXPECT_LT(shoulder(y), shoulder(y + 0.01));
    EXPECT_LE(shoulder(1e9), 1);
    EXPECT_GT(shoulder(3), 0.998);  // prints as 255
}

TEST(Tone, FittingColoursPassUnchanged) {
    const LinearRgb c = print_colour({0.3, 0.6, 0.2});
    EXPECT_NEAR(c.r, 0.3, 1e-12);
    EXPECT_NEAR(c.g, 0.6, 1e-12);
    EXPECT_NEAR(c.b, 0.2, 1e-12);
}

TEST(Tone, KeepsLuminanceAndHueAndFits) {
    for (const LinearRgb light : {LinearRgb{4, 0.5, 0.1}, LinearRgb{0.2, 3, 0.4}, LinearRgb{0.1, 0.2, 9},
                                  LinearRgb{1.5, 1.2, -0.2}, LinearRgb{0.5, -0.05, 0.1}}) {
        const LinearRgb print = print_colour(light);
        for (const double v : {print.r, print.g, print.b}) {
            EXPECT_GE(v, 0);
            EXPECT_LE(v, 1);
        }
        const double y = linear_rgb_to_xyz(light).y;
        const double printed = linear_rgb_to_xyz(print).y;
        EXPECT_NEAR(printed, shoulder(y), 1e-5);
        // Away from grey in the same direction: (r - y) : (g - y) : (b - y) is kept.
        const double in[3] = {light.r - y, light.g - y, light.b - y};
        const double out[3] = {print.r - printed, print.g - printed, print.b - printed};
        for (int i = 0; i < 3; ++i) EXPECT_NEAR(in[i] * out[(i + 1) % 3], in[(i + 1) % 3] * out[i], 1e-5);
    }
}

TEST(Tone, GlintsOfAnyColourEndInWhite) {
    for (const LinearRgb light : {LinearRgb{100, 60, 20}, LinearRgb{1e6, 0, 0}}) {
        const LinearRgb print = print_colour(light);
        for (const double v : {print.r, print.g, print.b}) EXPECT_GT(v, 0.998);
    }
}

TEST(Tone, NothingAndNonsensePrintBlack) {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    const double inf = std::numeric_limits<double>::infinity();
    for (const LinearRgb light :
         {LinearRgb{0, 0, 0}, LinearRgb{-1, -2, -1}, LinearRgb{nan, 1, 1}, LinearRgb{inf, 1, 1}})
        EXPECT_EQ(print_colour(light), LinearRgb{});
}

}  // namespace
}  // namespace rakelight
