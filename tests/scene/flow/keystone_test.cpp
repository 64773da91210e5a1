#include "scene/flow/keystone.h"

#include <gtest/gtest.h>

#include <cmath>
#include <ostream>
#include <string>

namespace rakelight {
namespace {

// Worked by hand from similar triangles: R = P h / tolerance, P = L + j.
struct Curve {
    const char* name;
    double length_mm, width_mm, joint_mm, tolerance, radius_mm;
};

void PrintTo(const Curve& c, std::ostream* out) {
    *out << c.name;
}

class RectanglesDo : public ::testing::TestWithParam<Curve> {};

TEST_P(RectanglesDo, DownToThisRadius) {
    const Curve& c = GetParam();
    const double pitch = c.length_mm + c.joint_mm, tolerance = c.tolerance * c.joint_mm;
    EXPECT_NEAR(least_radius_mm(pitch, c.width_mm, tolerance), c.radius_mm, 0.5);
    EXPECT_NEAR(head_opening_mm(pitch, c.width_mm, c.radius_mm), tolerance, 0.005 * tolerance);
}
INSTANTIATE_TEST_SUITE_P(WorkedByHand, RectanglesDo,
                         ::testing::Values(Curve{"square_10_tight", 10, 10, 1.5, kTightTolerance, 153.3},
                                           Curve{"square_10_rustic", 10, 10, 1.5, kRusticTolerance, 76.7},
                                           Curve{"long_15_tight", 15, 10, 1.5, kTightTolerance, 220},
                                           Curve{"square_5_tight", 5, 5, 1, kTightTolerance, 60},
                                           Curve{"square_20_tight", 20, 20, 2, kTightTolerance, 440}),
                         [](const auto& test) { return std::string(test.param.name); });

TEST(Keystone, EdgesAndWedgeOfATenMillimetrePiece) {
    // Inner L (1 - h / 2R), outer L (1 + h / 2R), wedge L / R.
    struct {
        double radius_mm, inner_mm, outer_mm, wedge_deg;
    } const rows[] = {{50, 9.0, 11.0, 11.5}, {30, 8.33, 11.67, 19.1}, {25, 8.0, 12.0, 22.9}};
    for (const auto& row : rows) {
        const KeystoneCut cut = keystone(10, 10, row.radius_mm);
        EXPECT_NEAR(cut.inner_mm, row.inner_mm, 0.005);
        EXPECT_NEAR(cut.outer_mm, row.outer_mm, 0.005);
        EXPECT_NEAR(cut.wedge_rad * 180 / 3.14159265358979, row.wedge_deg, 0.05);
        EXPECT_LT(cut.wedge_rad * 180 / 3.14159265358979, kMostWedge_deg);
    }
}

TEST(Keystone, ShareOfTheGroundThatJointsTake) {
    // 1 - (a / (a + j))^2 for squares, in whole per cent.
    struct {
        double side_mm, joint_mm, percent;
    } const rows[] = {{20, 2, 17}, {15, 2, 22}, {10, 0.5, 9}, {10, 1.5, 24},
                      {10, 3, 41}, {5, 1, 31},  {3, 0.5, 27}};
    for (const auto& row : rows)
        EXPECT_EQ(std::lround(100 * joint_share(row.side_mm, row.side_mm, row.joint_mm)), row.percent);
}

}  // namespace
}  // namespace rakelight
