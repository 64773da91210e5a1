// Judges: the CIE general disability glare equation (CIE 146:2002; Vos 2003), L / E = 10 / a^3 +
// (5 / a^2 + 0.1 p / a)(1 + (A / 62.5)^4) + 0.0025 p for 0.1 to 100 degrees; and conservation of light.
#include "output/print/eye_glare.h"

#include <gtest/gtest.h>
#include <tbb/global_control.h>

#include <cmath>
#include <numbers>
#include <numeric>

namespace rakelight {
namespace {

double general_glare_per_sr(double a, double age, double p) {
    return 10 / (a * a * a) + (5 / (a * a) + 0.1 * p / a) * (1 + std::pow(age / 62.5, 4)) + 0.0025 * p;
}

// The two are fits of their own to one body of data and part by up to a third near one degree.
TEST(EyeGlare, FollowsTheGeneralEquation) {
    for (const double angle : {0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0}) {
        const double ratio = eye_glare_per_sr(angle, 35, 0.5) / general_glare_per_sr(angle, 35, 0.5);
        EXPECT_GT(ratio, 0.7) << angle;
        EXPECT_LT(ratio, 1.35) << angle;
    }
}

// A point spread function of the whole eye holds all the light that enters: its integral over the hemisphere
// in front is 1. Rounded published coefficients leave a few per cent.
TEST(EyeGlare, HoldsAllTheLight) {
    double sum = 0;
    const double step = std::log(90 / 1e-5) / 20000;
    for (int i = 0; i < 20000; ++i) {
        const double deg = 1e-5 * std::exp((i + 0.5) * step);
        const double rad = deg * std::numbers::pi / 180;
        sum += eye_glare_per_sr(deg, 35, 0.5) * 2 * std::numbers::pi * std::sin(rad) * rad * step;
    }
    EXPECT_NEAR(sum, 1, 0.06);
}

TEST(EyeGlare, FallsWithAngleAndGrowsWithAge) {
    for (double angle = 0.01; angle < 20; angle *= 1.3)
        EXPECT_GT(eye_glare_per_sr(angle), eye_glare_per_sr(angle * 1.3));
    EXPECT_GT(eye_glare_per_sr(3, 70), eye_glare_per_sr(3, 30));
}

TEST(EyeGlare, KernelSumsToOneAtAnyPixelSize) {
    for (const double pixel : {0.002, 0.01, 0.03, 0.1, 1.0, 5.0}) {
        const GlareKernel kernel = make_glare_kernel(pixel);
        EXPECT_NEAR(std::accumulate(kernel.weight.begin(), kernel.weight.end(), 0.0), 1, 1e-5) << pixel;
        EXPECT_GE(*std::min_element(kernel.weight.begin(), kernel.weight.end()), 0) << pixel;
    }
}

LinearPicture flat(int width, int height, float value) {
    LinearPicture picture{width, height, {}};
    for (auto& plane : picture.plane) plane.assign(static_cast<std::size_t>(width * height), value);
    return picture;
}

TEST(EyeGlare, GlintKeepsItsLightAndLightsItsNeighbours) {
    LinearPicture picture = flat(201, 201, 0.25f);
    const std::size_t middle = 100 * 201 + 100;
    picture.plane[0][middle] = 900;
    picture.plane[1][middle] = 700;
    picture.plane[2][middle] = 400;
    const LinearPicture before = picture;
    spread_glare(picture, make_glare_kernel(0.03));
    for (std::size_t c = 0; c < 3; ++c) {
        const double was = std::accumulate(before.plane[c].begin(), before.plane[c].end(), 0.0);
        const double is = std::accumulate(picture.plane[c].begin(), picture.plane[c].end(), 0.0);
        EXPECT_NEAR(is / was, 1, 1e-5);
        EXPECT_GT(picture.plane[c][middle + 1], 1);
        EXPECT_GT(picture.plane[c][middle + 10], 0.25f);
        EXPECT_GT(picture.plane[c][middle + 5], picture.plane[c][middle + 20]);
        EXPECT_FLOAT_EQ(picture.plane[c][middle + 7], picture.plane[c][middle - 7]);
        EXPECT_FLOAT_EQ(picture.plane[c][middle + 7], picture.plane[c][middle + 7 * 201]);
    }
}

// A film of n samples a pixel: a glint that most samples find, and a dark pixel that one sample of a stray
// path makes as bright. Mean and standard error are those of the samples.
TEST(EyeGlare, OneStraySampleIsNoStar) {
    for (const int n : {16, 256}) {
        LinearPicture picture = flat(301, 101, 0.02f);
        std::vector<float> known(picture.plane[0].size(), 1);
        const auto put = [&](std::size_t pixel, int lit) {
            const double each = 40.0 * n / lit;  // either has the mean of 40
            const double variance = (lit * each * each - n * 40.0 * 40.0) / (n - 1);
            for (auto& plane : picture.plane) plane[pixel] = 40;
            known[pixel] = known_share(40, static_cast<float>(std::sqrt(variance / n)));
        };
        const std::size_t glint = 50 * 301 + 50, stray = 50 * 301 + 250;
        put(glint, n);
        put(stray, 1);
        const LinearPicture before = picture;
        spread_glare(picture, make_glare_kernel(0.03), known);
        EXPECT_EQ(picture.plane[0][stray], before.plane[0][stray]) << n;
        EXPECT_GT(picture.plane[0][glint + 1], 0.2f) << n;
        EXPECT_LT(picture.plane[0][stray + 1], 0.1f) << n;
        EXPECT_NEAR(std::accumulate(picture.plane[0].begin(), picture.plane[0].end(), 0.0) /
                        std::accumulate(before.plane[0].begin(), before.plane[0].end(), 0.0),
                    1, 1e-3);  // what falls beyond the edges is lost
    }
}

TEST(EyeGlare, LeavesWhatAPrintCanCarry) {
    LinearPicture picture = flat(40, 30, 0.999f);
    const LinearPicture before = picture;
    spread_glare(picture, make_glare_kernel(0.05));
    EXPECT_EQ(picture.plane, before.plane);
}

TEST(EyeGlare, SameBitsOnAnyNumberOfThreads) {
    LinearPicture one = flat(150, 100, 0.1f);
    for (std::size_t i = 0; i < one.plane[0].size(); i += 97)
        one.plane[i % 3][i] = 3.3f * static_cast<float>(i);
    LinearPicture many = one;
    {
        const tbb::global_control limit(tbb::global_control::max_allowed_parallelism, 1);
        spread_glare(one, make_glare_kernel(0.04));
    }
    spread_glare(many, make_glare_kernel(0.04));
    EXPECT_EQ(one.plane, many.plane);
}

}  // namespace
}  // namespace rakelight
