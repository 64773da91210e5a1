// Labels within shapes, against closed forms.
#include "output/paper/map_label.h"

#include <gtest/gtest.h>

#include <cmath>

namespace rakelight {
namespace {

TEST(MapLabel, FillsARectangleOfItsOwnShape) {
    const LabelSpot spot = label_spot({{10, 10}, {30, 10}, {30, 20}, {10, 20}}, 2, 1);
    EXPECT_NEAR(spot.em_mm, 10, 0.05);
    EXPECT_NEAR(spot.at_mm.x, 20, 1e-9);
    EXPECT_NEAR(spot.at_mm.y, 15, 1e-9);
}

// A level label of w by h in a square of side a that stands on its corner: w/2 + h/2 = a / sqrt 2.
TEST(MapLabel, FitsASquareOnItsCorner) {
    const double half = 10 / std::sqrt(2.0);
    const LabelSpot spot = label_spot({{0, -half}, {half, 0}, {0, half}, {-half, 0}}, 2, 1);
    EXPECT_NEAR(1.5 * spot.em_mm, half, 0.05);
}

TEST(MapLabel, StaysOutOfANotch) {
    // An L, one arm 4 wide: the label must be within an arm or the corner.
    const Ring l{{0, 0}, {30, 0}, {30, 4}, {4, 4}, {4, 30}, {0, 30}};
    const LabelSpot spot = label_spot(l, 2, 1);
    if (spot.em_mm > 0) {
        EXPECT_TRUE(contains(l, spot.at_mm + spot.em_mm * glm::dvec2(0.99, 0.49)));
        EXPECT_TRUE(contains(l, spot.at_mm - spot.em_mm * glm::dvec2(0.99, 0.49)));
    }
    EXPECT_LE(spot.em_mm, 4);
}

}  // namespace
}  // namespace rakelight
