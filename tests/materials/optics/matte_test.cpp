#include "materials/optics/matte.h"

#include <gtest/gtest.h>

namespace rakelight {
namespace {

constexpr double kPi = 3.14159265358979323846;

glm::vec3 direction(double degrees, double turn_deg) {
    const double t = degrees * kPi / 180, p = turn_deg * kPi / 180;
    return glm::vec3(std::sin(t) * std::cos(p), std::sin(t) * std::sin(p), std::cos(t));
}

// Oren and Nayar 1994, qualitative model: A + B max(0, cos) sin(larger angle) tan(smaller angle).
double oren_nayar(double slope_deg, double in_deg, double out_deg, double turn_deg) {
    const double s2 = std::pow(slope_deg * kPi / 180, 2);
    const double a = 1 - 0.5 * s2 / (s2 + 0.33), b = 0.45 * s2 / (s2 + 0.09);
    const double larger = std::max(in_deg, out_deg) * kPi / 180,
                 smaller = std::min(in_deg, out_deg) * kPi / 180;
    return a + b * std::max(0.0, std::cos(turn_deg * kPi / 180)) * std::sin(larger) * std::tan(smaller);
}

TEST(Matte, TableOfTheQualitativeModel) {  // worked values, so that the judge below is itself judged
    EXPECT_NEAR(oren_nayar(20, 0, 0, 0), .865168, 1e-5);
    EXPECT_NEAR(oren_nayar(30, 60, 60, 0), 1.281284, 1e-5);
    EXPECT_NEAR(oren_nayar(30, 75, 45, 0), 1.10035, 1e-5);
    EXPECT_NEAR(oren_nayar(45, 60, 60, 0), 1.26332, 1e-5);
}

TEST(Matte, HasTheShapeOfOrenNayarTowardTheLamp) {
    for (const float slope : {5.f, 20.f, 30.f, 45.f}) {
        const Matte m = make_matte(slope);
        const glm::vec3 up(0, 0, 1);
        for (const double in : {10., 45., 75.})
            for (const double out : {5., 45., 60.})
                for (const double turn : {0., 40., 89.})
                    EXPECT_NEAR(
                        matte_single(m, direction(out, 0), direction(in, turn)) / matte_single(m, up, up),
                        oren_nayar(slope, in, out, turn) / oren_nayar(slope, 0, 0, 0), 1e-5);
    }
}

TEST(Matte, SmoothIsLambert) {
    const Matte m = make_matte(0);
    EXPECT_EQ(matte_single(m, direction(40, 0), direction(70, 100)), 1);
    EXPECT_EQ(matte_albedo(m, 0.3f), 1);
    EXPECT_EQ(matte_multiple(m, 0.3f, 0.8f), 0);
}

// The published fit of the albedo is within 0.0013 of the sum (worst at grazing and 60 degrees of slope).
TEST(Matte, AlbedosAreThoseOfTheSingleScattering) {
    for (const float slope : {10.f, 30.f, 60.f}) {
        const Matte m = make_matte(slope);
        double mean = 0;
        constexpr int kRings = 200, kTurns = 720;
        for (int r = 0; r < kRings; ++r) {
            const double z_out = std::sqrt((r + 0.5) / kRings);
            const glm::vec3 out(std::sqrt(1 - z_out * z_out), 0, z_out);
            double albedo = 0;
            for (int i = 0; i < kRings; ++i)
                for (int k = 0; k < kTurns; k += 4) {
                    const double z = std::sqrt((i + 0.5) / kRings), p = 2 * kPi * (k + 2) / kTurns;
                    const double s = std::sqrt(1 - z * z);
                    albedo += matte_single(m, out, glm::vec3(s * std::cos(p), s * std::sin(p), z));
                }
            albedo /= kRings * kTurns / 4;
            EXPECT_NEAR(matte_albedo(m, out.z), albedo, 1.5e-3) << slope << ' ' << z_out;
            mean += albedo / kRings;
        }
        EXPECT_NEAR(m.mean_albedo, mean, 1e-3);
    }
}

}  // namespace
}  // namespace rakelight
