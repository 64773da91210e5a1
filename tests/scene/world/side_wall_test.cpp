#include "scene/world/side_wall.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "materials/maths/hash.h"

namespace rakelight {
namespace {

// Brute force: light that falls evenly from all round on a rectangle, refracted by Snell, followed to the
// bonded depth. The closed form counts short moves, so the rectangle is large against the depth.
TEST(SideWall, ShareOfTheSidesAsCountedRayByRay) {
    constexpr double kLength = 40, kWidth = 25, kDepth = 2;
    for (const double index : {1.33, 1.52, 1.7}) {
        Rng rng(hash_combine(7, static_cast<std::uint64_t>(index * 100)));
        constexpr int kRays = 400'000;
        int met = 0;
        for (int i = 0; i < kRays; ++i) {
            const double x = rng.within(0, kLength), y = rng.within(0, kWidth);
            const double sine = std::sqrt(rng.within(0, 1)) / index;  // Lambert's law, then Snell's
            const double aside = kDepth * sine / std::sqrt(1 - sine * sine);
            const double turn = rng.within(0, 2 * std::numbers::pi);
            const double u = x + aside * std::cos(turn), v = y + aside * std::sin(turn);
            met += u < 0 || u > kLength || v < 0 || v > kWidth;
        }
        const double counted = static_cast<double>(met) / kRays;
        // Corners, counted twice by the law of short moves, are aside^2 / (pi A): under 2 % of it here; the
        // count's own deviation is 0.6 %.
        EXPECT_NEAR(side_share(kLength, kWidth, kDepth, index), counted, 0.03 * counted) << index;
    }
}

TEST(SideWall, GrowsWithDepthAndStaysAShare) {
    EXPECT_EQ(side_share(10, 8, 0, 1.52), 0);
    // Closed form: while it is small, the share is linear in the depth.
    EXPECT_NEAR(side_share(10, 8, 2, 1.52), 2 * side_share(10, 8, 1, 1.52), 1e-12);
    EXPECT_LT(side_share(2, 2, 20, 1.52), 1);
}

TEST(SideWall, WhatTouchesIsTheGroutAndInOpenJointsTheBed) {
    Field field;
    field.bed = 1;
    field.grout = 4;
    field.recess_mm = 1;
    EXPECT_EQ(filling_of(field), 4u);
    EXPECT_DOUBLE_EQ(bonded_mm(field, 3), 2);
    field.grout.reset();
    EXPECT_EQ(filling_of(field), 1u);
    EXPECT_DOUBLE_EQ(bonded_mm(field, 3), 1);  // squeezed up by a third
    field.fill = 0.5;
    EXPECT_DOUBLE_EQ(bonded_mm(field, 3), 1.5);
}

}  // namespace
}  // namespace rakelight
