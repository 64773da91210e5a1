#include "scene/mix/position.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "tests/support/laying_samples.h"

namespace rakelight {
namespace {

using By = MixShift::By;

double position(By by, const Stroke& line, glm::dvec2 p) {
    MixShift shift;
    shift.by = by;
    shift.line = line;
    return mix_positions(shift, std::vector{p})[0];
}

Stroke corner() {
    Stroke s;
    s.points_mm = {{0, 0}, {100, 0}, {100, 50}};
    return s;
}

// A square ring: the hole's edge is an edge too, and so is that of another island.
TEST(MixPosition, AwayFromTheNearestRingOfAnEdge) {
    const auto square = [](double low, double high) {
        Stroke s;
        s.points_mm = {{low, low}, {high, low}, {high, high}, {low, high}};
        s.closed = true;
        return s;
    };
    MixShift shift;
    shift.by = By::away;
    shift.line = square(0, 100);
    shift.more_lines = {square(40, 60), square(200, 300)};
    const auto p = mix_positions(shift, std::vector<glm::dvec2>{{50, 8}, {50, 33}, {50, 50}, {190, 250}});
    EXPECT_NEAR(p[0], 8, 1e-12);
    EXPECT_NEAR(p[1], 7, 1e-12);
    EXPECT_NEAR(p[2], 10, 1e-12);
    EXPECT_NEAR(p[3], 10, 1e-12);
}

// Right angles: 150 mm in all, every distance by hand.
TEST(MixPosition, AlongAndAcrossACorner) {
    EXPECT_NEAR(position(By::along, corner(), {30, 12}), 30.0 / 150, 1e-12);
    EXPECT_NEAR(position(By::along, corner(), {110, 20}), 120.0 / 150, 1e-12);
    EXPECT_NEAR(position(By::along, corner(), {-40, 3}), 0, 1e-12);
    EXPECT_NEAR(position(By::along, corner(), {90, 400}), 1, 1e-12);
    EXPECT_NEAR(position(By::across, corner(), {30, 12}), 12, 1e-12);
    EXPECT_NEAR(position(By::across, corner(), {30, -12}), -12, 1e-12);
    EXPECT_NEAR(position(By::across, corner(), {104, -3}), -5, 1e-12);  // off the corner: the 3-4-5 triangle
    EXPECT_NEAR(position(By::across, corner(), {-3, -4}), -5, 1e-12);   // off the first end
    EXPECT_NEAR(position(By::away, corner(), {30, -12}), 12, 1e-12);
}

// A closed line drawn counter-clockwise has its inside to the left.
TEST(MixPosition, AcrossARing) {
    Stroke ring;
    ring.closed = ring.smooth = true;
    for (int k = 0; k < 48; ++k) {
        const double a = 2 * std::numbers::pi * k / 48;
        ring.points_mm.push_back(100.0 * glm::dvec2(std::cos(a), std::sin(a)));
    }
    // The chain strays from the circle by at most its flatness f = 0.05 mm, so its segments are at most
    // 2 sqrt(2 R f) long, and the nearest of its points is at most half of one further along.
    const double half_segment = std::sqrt(2 * 0.05 / 100) / (2 * std::numbers::pi);
    for (const double r : {20.0, 80.0, 100.0, 130.0})
        for (const double a : {0.0, 0.3, 2.0, 4.4}) {
            const glm::dvec2 p = r * glm::dvec2(std::cos(a), std::sin(a));
            EXPECT_NEAR(position(By::across, ring, p), 100 - r, 0.06);
            EXPECT_NEAR(position(By::along, ring, p), a / (2 * std::numbers::pi), half_segment);
        }
}

TEST(MixPosition, TowardsIsAShareOfTheField) {
    MixShift shift;
    shift.by = By::towards;
    shift.direction_deg = 90;
    const auto p = mix_positions(shift, std::vector<glm::dvec2>{{5, 10}, {900, 60}, {-7, 35}});
    EXPECT_NEAR(p[0], 0, 1e-12);
    EXPECT_NEAR(p[1], 1, 1e-12);
    EXPECT_NEAR(p[2], 0.5, 1e-12);
}

}  // namespace
}  // namespace rakelight
