#include "scene/geometry/region.h"

#include <gtest/gtest.h>

namespace rakelight {
namespace {

const Ring kSquare{{0, 0}, {10, 0}, {10, 10}, {0, 10}};

TEST(Region, AreaOfASquareWithASquareHole) {
    const Region r = subtract(region_of(kSquare), region_of({{4, 4}, {6, 4}, {6, 6}, {4, 6}}));
    EXPECT_EQ(r.rings.size(), 2u);
    EXPECT_NEAR(area_mm2(r), 96, 1e-6);  // closed form; lattice of 1e-4 mm is hit exactly
    EXPECT_TRUE(contains(r, {1, 1}));
    EXPECT_FALSE(contains(r, {5, 5}));
    EXPECT_FALSE(contains(r, {11, 5}));
}

TEST(Region, ClockwiseRingEnclosesTheSameGround) {
    EXPECT_NEAR(area_mm2(region_of({{0, 0}, {0, 10}, {10, 10}, {10, 0}})), 100, 1e-6);
}

TEST(Region, GrowingASquare) {
    // Steiner's formula for parallel bodies: A + P d + pi d^2 with round corners; sharp ones fill (s + 2d)^2.
    EXPECT_NEAR(area_mm2(grow(region_of(kSquare), 1)), 144, 1e-3);
    EXPECT_NEAR(area_mm2(grow(region_of(kSquare), 1, Corner::round)), 100 + 40 + 3.14159265, 0.1);
    EXPECT_NEAR(area_mm2(grow(region_of(kSquare), -2)), 36, 1e-3);
    EXPECT_TRUE(grow(region_of(kSquare), -5.1).empty());
}

TEST(Region, CentroidOfATriangleIsTheMeanOfItsCorners) {
    const glm::dvec2 c = centroid({{0, 0}, {9, 0}, {0, 6}});
    EXPECT_NEAR(c.x, 3, 1e-12);
    EXPECT_NEAR(c.y, 2, 1e-12);
}

TEST(Region, HullAndSimplified) {
    EXPECT_EQ(convex_hull({{0, 0}, {10, 0}, {5, 5}, {10, 10}, {0, 10}, {5, 0}}).size(), 4u);
    EXPECT_EQ(simplified({{0, 0}, {5, 0.01}, {10, 0}, {10, 10}, {0, 10}}, 0.1).size(), 4u);
    EXPECT_EQ(simplified({{0, 0}, {5, -1}, {10, 0}, {10, 10}, {0, 10}}, 0.1).size(), 5u);
}

TEST(Region, StarCentreSeesAllOrIsNone) {
    // The kernel of this L is the square [0,1]^2: every point that sees both ends of the arms.
    const Ring ell{{0, 0}, {20, 0}, {20, 1}, {1, 1}, {1, 20}, {0, 20}};
    const auto c = star_centre(ell);
    ASSERT_TRUE(c);
    EXPECT_TRUE(c->x > 0 && c->x < 1 && c->y > 0 && c->y < 1);
    // From nowhere can both arms of a U be seen whole.
    EXPECT_FALSE(star_centre({{0, 0}, {10, 0}, {10, 10}, {9, 10}, {9, 1}, {1, 1}, {1, 10}, {0, 10}}));
}

TEST(Region, IslandsKeepTheirHoles) {
    const Region two = unite(subtract(region_of(kSquare), region_of({{4, 4}, {6, 4}, {6, 6}, {4, 6}})),
                             region_of({{20, 0}, {30, 0}, {30, 10}, {20, 10}}));
    const auto parts = islands(two);
    ASSERT_EQ(parts.size(), 2u);
    EXPECT_NEAR(area_mm2(parts[0]) + area_mm2(parts[1]), 196, 1e-6);
}

}  // namespace
}  // namespace rakelight
