// Clear plates by angle: the sum over all inner reflections, in closed form and ray by ray.
#include "materials/optics/pane.h"

#include <gtest/gtest.h>

#include <numbers>

#include "materials/optics/fresnel.h"

namespace rakelight {
namespace {

float cosine(double degrees) {
    return static_cast<float>(std::cos(degrees * std::numbers::pi / 180));
}

}  // namespace

// One plate of n = 1.52, mean of both polarisations of (1 - R) / (1 + R): computed from Fresnel's equations.
TEST(Pane, OnePlate) {
    for (const auto& [degrees, through] :
         {std::pair(0.0, 0.91832), {30.0, 0.91596}, {45.0, 0.90253}, {60.0, 0.84347}, {75.0, 0.61481}})
        EXPECT_NEAR(plates_transmittance(cosine(degrees), 1.52f, 1), through, 1e-4) << degrees;
    EXPECT_NEAR(plates_transmittance(0, 1.52f, 1), 0, 1e-6);
}

// Two plates straight on: T2 = T^2 / (1 - R^2) with T = (1 - r) / (1 + r), R = 2 r / (1 + r) of each.
TEST(Pane, TwoPlatesFromOne) {
    const double r = dielectric_reflectance(1.0, 1.52);
    const double t = (1 - r) / (1 + r), back = 2 * r / (1 + r);
    EXPECT_NEAR(plates_transmittance(1, 1.52f, 2), t * t / (1 - back * back), 1e-6);
}

// At Brewster's angle one polarisation passes whole.
TEST(Pane, BrewsterPassesHalfWhole) {
    const float c = std::cos(std::atan(1.5f));
    const double rs = 0.147929;  // ((n^2 - 1) / (n^2 + 1))^2 = (1.25 / 3.25)^2
    EXPECT_NEAR(plates_transmittance(c, 1.5f, 2), 0.5 * (1 + (1 - rs) / (1 + 3 * rs)), 1e-5);
}

TEST(Pane, GlazingFallsFromOneToNothing) {
    EXPECT_EQ(glazing_share(1), 1);
    float last = 1;
    for (double degrees = 10; degrees < 90; degrees += 10) {
        EXPECT_LE(glazing_share(cosine(degrees)), last);
        last = glazing_share(cosine(degrees));
    }
    EXPECT_NEAR(glazing_share(0), 0, 1e-6);
}

}  // namespace rakelight
