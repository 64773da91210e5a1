#include "scene/geometry/polygon.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace rakelight {
namespace {

const Ring kTriangle{{0, 0}, {4, 0}, {4, 3}};  // Pythagoras: 3, 4, 5

TEST(Polygon, EdgesRunInOrderAndCloseTheRing) {
    std::vector<glm::dvec2> from, to;
    for (const auto& [a, b] : edges(kTriangle)) {
        from.push_back(a);
        to.push_back(b);
    }
    EXPECT_EQ(from, kTriangle);
    EXPECT_EQ(to, (Ring{{4, 0}, {4, 3}, {0, 0}}));
    for (const auto& edge : edges(Ring{})) ADD_FAILURE() << edge.a.x;
}

TEST(Polygon, MeasuresOfARightTriangle) {
    EXPECT_DOUBLE_EQ(area_mm2(kTriangle), 6);
    EXPECT_DOUBLE_EQ(area_mm2(Ring(kTriangle.rbegin(), kTriangle.rend())), -6);
    EXPECT_DOUBLE_EQ(perimeter_mm(kTriangle), 12);
    EXPECT_DOUBLE_EQ(mean_half_width_mm(kTriangle), 1);  // the radius of its incircle
    EXPECT_DOUBLE_EQ(farthest_mm(kTriangle, {0, 0}), 5);
    EXPECT_EQ(perimeter_mm(Ring{}), 0);
}

TEST(Polygon, ARegularRingFarFromTheOriginKeepsItsArea) {
    constexpr int kCorners = 96;
    Ring ring;
    for (int i = 0; i < kCorners; ++i) {
        const double turn = 2 * std::numbers::pi * i / kCorners;
        ring.push_back(glm::dvec2(3e6, -2e6) + glm::dvec2(std::cos(turn), std::sin(turn)));
    }
    EXPECT_NEAR(area_mm2(ring), kCorners / 2.0 * std::sin(2 * std::numbers::pi / kCorners), 1e-8);
    EXPECT_NEAR(perimeter_mm(ring), 2 * kCorners * std::sin(std::numbers::pi / kCorners), 1e-7);
}

}  // namespace
}  // namespace rakelight
