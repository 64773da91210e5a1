// How much of a face mirrors a lamp: limits in closed form, and the rule of thumb for tilted pieces.
#include "output/glare/measures/lit_share.h"

#include <gtest/gtest.h>

#include <cmath>

namespace rakelight {
namespace {

double normal_below(double z) {
    return 0.5 * std::erfc(-z / std::sqrt(2.0));
}

TEST(Overlap, OfWavesAloneIsTheNormalDistribution) {
    for (const double from : {0.0, 0.5, -1.3, 2.5})
        EXPECT_NEAR(overlap(from, 0.4, 0, 1), normal_below(from + 0.4) - normal_below(from - 0.4), 1e-6);
}

TEST(Overlap, OfABulgeAloneIsAnInterval) {
    EXPECT_NEAR(overlap(0, 0.3, 1, 0), 0.3, 1e-4);   // 0.6 of 2
    EXPECT_NEAR(overlap(1, 0.3, 1, 0), 0.15, 1e-4);  // half of it beyond the end
    EXPECT_NEAR(overlap(1.4, 0.3, 1, 0), 0, 1e-4);
    EXPECT_NEAR(overlap(0.2, 3, 1, 0), 1, 1e-4);  // a lamp wider than the face
}

// Numbers spread both ways: the integral of the one over the other, by summing.
TEST(Overlap, OfBothIsTheirConvolution) {
    const double even = 0.7, deviation = 0.4, half = 0.25;
    for (const double from : {0.0, 0.6, 1.1, 1.8}) {
        double sum = 0;
        constexpr int kSteps = 4000;
        for (int i = 0; i < kSteps; ++i) {
            const double u = from + even * ((2 * i + 1.0) / kSteps - 1);
            sum += (normal_below((u + half) / deviation) - normal_below((u - half) / deviation)) / kSteps;
        }
        EXPECT_NEAR(overlap(from, half, even, deviation), sum, 1e-6) << from;
    }
}

// Pieces of normal tilt of deviation s each way, a lamp that is mirrored within a circle of radius e about a
// tilt t: the share e^2 / (2 s^2) exp(-t^2 / (2 s^2)), for e small against s. The density of a bivariate
// normal times the circle's area.
TEST(LitShare, OfSmallLampsIsDensityTimesArea) {
    struct Case {
        double e, s, t, share;
    };
    for (const Case& c : {Case{1, 3, 5, 0.0139}, Case{1, 5, 9, 0.00396}, Case{1, 8, 14, 0.00169}}) {
        const double half = c.e * std::sqrt(3.14159265358979) / 2;
        const double share = lit_share({c.t, 0, half, half}, {0, c.s});
        EXPECT_NEAR(share, c.share, 0.06 * c.share);
        EXPECT_NEAR(lit_share({0, -c.t, half, half}, {0, c.s}), share, 1e-12);
    }
}

}  // namespace
}  // namespace rakelight
