// Cells at the edge of their ground, against areas by hand.
#include "scene/geometry/clipped_cells.h"

#include <gtest/gtest.h>

namespace rakelight {
namespace {

Ring box(double low_x, double low_y, double high_x, double high_y) {
    return {{low_x, low_y}, {high_x, low_y}, {high_x, high_y}, {low_x, high_y}};
}

TEST(ClippedCells, PartsOfACellThatComesApart) {
    // A trough 100 wide with walls of 30 and 40 above its floor; the second cell lies over both walls.
    const Region ground =
        region_of({{0, 0}, {100, 0}, {100, 60}, {60, 60}, {60, 20}, {30, 20}, {30, 60}, {0, 60}});
    const EdgeIndex edge(ground, 40);
    std::vector<Ring> cells{box(40, 4, 50, 14), box(10, 30, 90, 50), box(35, 30, 55, 40), {}};
    const std::vector<Ring> others = clip_cells(cells, RegionTiles(ground, 20), edge);
    EXPECT_NEAR(area_mm2(cells[0]), 100, 1e-3);      // inside
    EXPECT_NEAR(area_mm2(cells[1]), 30 * 20, 1e-3);  // over the wider wall
    EXPECT_TRUE(cells[2].empty());                   // in the gap
    EXPECT_TRUE(cells[3].empty());
    ASSERT_EQ(others.size(), 1u);
    EXPECT_NEAR(area_mm2(others[0]), 20 * 20, 1e-3);
}

TEST(ClippedCells, SliversAreThinOrSmall) {
    EXPECT_FALSE(is_sliver(box(0, 0, 10, 10), 100));
    EXPECT_TRUE(is_sliver(box(0, 0, 3.1, 20), 100));  // thinner than 3.2
    EXPECT_FALSE(is_sliver(box(0, 0, 3.3, 20), 100));
    EXPECT_TRUE(is_sliver(box(0, 0, 3.8, 3.8), 100));  // 14 of 15 mm2
    EXPECT_FALSE(is_sliver(box(0, 0, 4, 4), 100));
    EXPECT_TRUE(is_sliver({{0, 0}, {9, 9}}, 100));
}

}  // namespace
}  // namespace rakelight
