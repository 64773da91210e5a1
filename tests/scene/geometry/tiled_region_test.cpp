// Looks at a region through its tiles, against the region itself.
#include "scene/geometry/tiled_region.h"

#include <gtest/gtest.h>

#include "materials/maths/hash.h"

namespace rakelight {
namespace {

// A star of 60 points with a square hole, about 120 mm wide.
Region star() {
    Ring outer;
    for (int i = 0; i < 120; ++i) {
        const double turn = glm::radians(3.0 * i), r = i % 2 ? 60 : 42;
        outer.emplace_back(r * std::cos(turn), r * std::sin(turn));
    }
    return {{outer, {{-9, -9}, {-9, 9}, {9, 9}, {9, -9}}}};
}

TEST(TiledRegion, ALookSeesWhatIsThere) {
    const Region region = star();
    TiledRegion tiles(region, 24);
    Rng rng(5);
    for (int k = 0; k < 400; ++k) {
        const glm::dvec2 at(rng.within(-70, 70), rng.within(-70, 70));
        const glm::dvec2 half(rng.within(0.5, 18), rng.within(0.5, 18));  // the largest go past a tile
        const Box box{at - half, at + half};
        const Region square{{{box.low, {box.high.x, box.low.y}, box.high, {box.low.x, box.high.y}}}};
        const Region is = intersect(square, region), seen = tiles.within(box);
        // Corners are held to 1e-4 mm, along 30 mm of edges.
        EXPECT_LT(area_mm2(subtract(is, seen)) + area_mm2(subtract(seen, is)), 0.01);
    }
}

TEST(TiledRegion, WithinIsWholeAndBeyondIsNothing) {
    const Region region = star();
    TiledRegion tiles(region, 24);
    EXPECT_NEAR(area_mm2(tiles.within({{12, 12}, {20, 22}})), 80, 1e-6);
    EXPECT_TRUE(tiles.within({{-5, -5}, {5, 5}}).empty());
    EXPECT_TRUE(tiles.within({{200, 0}, {210, 9}}).empty());
}

}  // namespace
}  // namespace rakelight
