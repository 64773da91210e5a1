// Tiles of a region beside the region itself.
#include "scene/geometry/region_tiles.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace rakelight {
namespace {

// A ring 400 mm wide with a hole of 200 mm, both wavy.
Region wavy_ring() {
    Ring outer, inner;
    for (int k = 0; k < 720; ++k) {
        const double a = k * std::numbers::pi / 360;
        const glm::dvec2 way(std::cos(a), std::sin(a));
        outer.push_back((200 + 8 * std::sin(23 * a)) * way);
        inner.push_back((100 + 5 * std::sin(17 * a)) * way);
    }
    return subtract(region_of(outer), region_of(inner));
}

Region square(const glm::dvec2& middle, double half) {
    return {
        {{middle - half, middle + glm::dvec2(half, -half), middle + half, middle + glm::dvec2(-half, half)}}};
}

TEST(RegionTiles, HoldAllWithinReach) {
    const Region whole = wavy_ring();
    const RegionTiles tiles(whole, 30);
    for (double y = -215; y < 215; y += 13.7)
        for (double x = -215; x < 215; x += 11.3) {
            const Region window = square({x, y}, 15);
            const double far = 15 * std::numbers::sqrt2;
            // Corners are rounded to a ten-thousandth of a millimetre.
            EXPECT_NEAR(area_mm2(intersect(window, tiles.near({x, y}, far))),
                        area_mm2(intersect(window, whole)), 0.02)
                << x << " " << y;
        }
}

TEST(RegionTiles, BeyondTheReachAllIsTold) {
    const Region whole = wavy_ring();
    const RegionTiles tiles(whole, 30);
    EXPECT_EQ(area_mm2(tiles.near({0, 150}, 31)), area_mm2(whole));
    EXPECT_LT(area_mm2(tiles.near({0, 150}, 29)), area_mm2(whole) / 4);
    EXPECT_TRUE(RegionTiles({}, 30).near({0, 0}, 10).empty());
}

}  // namespace
}  // namespace rakelight
