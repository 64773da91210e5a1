#include "scene/opus/star_parts.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "tests/support/opus_checks.h"

namespace rakelight {
namespace {

Ring circle(glm::dvec2 at, double radius_mm, int points = 90) {
    Ring ring;
    for (int i = 0; i < points; ++i) {
        const double turn = i * 2 * std::numbers::pi / points;
        ring.push_back(at + radius_mm * glm::dvec2(std::cos(turn), std::sin(turn)));
    }
    return ring;
}

void expect_parts(const Region& region, double joint_mm) {
    const auto parts = star_parts(region, joint_mm, 0.5);
    ASSERT_FALSE(parts.empty());
    double area = 0, around = 0, outline = 0;
    for (const auto& part : parts) {
        EXPECT_TRUE(star_centre(part));
        area += area_mm2(part);
        for (std::size_t k = 0; k < part.size(); ++k)
            around += glm::distance(part[k], part[(k + 1) % part.size()]);
    }
    for (const auto& ring : region.rings)
        for (std::size_t k = 0; k < ring.size(); ++k)
            outline += glm::distance(ring[k], ring[(k + 1) % ring.size()]);
    // Slits take half a joint along what the parts have in outline beyond that of the region.
    EXPECT_NEAR(area, area_mm2(region) - (around - outline) * joint_mm / 2, 0.005 * area_mm2(region));
    for (std::size_t i = 0; i < parts.size(); ++i)
        for (std::size_t j = 0; j < i; ++j) EXPECT_LT(area_mm2(intersect({{parts[i]}}, {{parts[j]}})), 1e-9);
}

TEST(StarParts, WhatCanBeCutWholeStaysWhole) {
    EXPECT_EQ(star_parts({{circle({0, 0}, 40)}}, 0.5, 0.5).size(), 1u);
    EXPECT_EQ(star_parts({{{{0, 0}, {40, 0}, {40, 20}, {20, 20}, {20, 40}, {0, 40}}}}, 0.5, 0.5).size(), 1u);
}

TEST(StarParts, RingIsParted) {
    const Region ring = subtract({{circle({0, 0}, 60)}}, {{circle({0, 0}, 45)}});
    expect_parts(ring, 0.5);
    // A point sees a ring's outer edge past its inner one only within 2 acos(r / R): 360 / 83 is over four.
    const auto parts = star_parts(ring, 0.5, 0.5);
    EXPECT_GE(parts.size(), 5u);
    EXPECT_LE(parts.size(), 12u);
}

TEST(StarParts, GroundWithManyHolesIsParted) {
    Region ground{{{{0, 0}, {300, 0}, {300, 200}, {0, 200}}}};
    for (int x = 0; x < 4; ++x)
        for (int y = 0; y < 3; ++y) ground = subtract(ground, {{circle({45 + 68 * x, 40 + 60 * y}, 22, 40)}});
    expect_parts(ground, 0.4);
}

TEST(StarParts, LettersAreParted) {
    const Ring h{{0, 0},    {20, 0},   {20, 40}, {60, 40}, {60, 0},   {80, 0},
                 {80, 100}, {60, 100}, {60, 60}, {20, 60}, {20, 100}, {0, 100}};
    expect_parts({{h}}, 0.5);
    EXPECT_LE(star_parts({{h}}, 0.5, 0.5).size(),
              4u);  // a cutter needs three; four is a threshold of our own
}

}  // namespace
}  // namespace rakelight
