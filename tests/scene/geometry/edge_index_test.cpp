#include "scene/geometry/edge_index.h"

#include <gtest/gtest.h>

#include <cmath>

#include "materials/maths/hash.h"

namespace rakelight {
namespace {

// The plain answer, edge by edge over the whole region, is the judge.
TEST(EdgeIndex, AgreesWithLookingAtEveryEdge) {
    Ring star;
    for (int i = 0; i < 40; ++i)
        star.push_back((i % 2 ? 22.0 : 60.0) *
                       glm::dvec2(std::cos(i * 0.15707963), std::sin(i * 0.15707963)));
    const Region region = subtract(region_of(star), region_of({{-9, -7}, {8, -7}, {8, 5}, {0, -1}, {-9, 6}}));
    const EdgeIndex index(region, 5);
    Rng rng(3);
    for (int k = 0; k < 4000; ++k) {
        const glm::dvec2 p(rng.within(-75, 75), rng.within(-75, 75));
        double nearest = 5;
        for (const auto& ring : region.rings)
            for (std::size_t i = 0; i < ring.size(); ++i)
                nearest = std::min(nearest, distance_mm(p, ring[i], ring[(i + 1) % ring.size()]));
        EXPECT_NEAR(index.inside_mm(p), contains(region, p) ? nearest : -nearest, 1e-9) << p.x << ' ' << p.y;
    }
}

TEST(EdgeIndex, KnowsTheInsideFarFromEveryEdge) {
    const EdgeIndex index(region_of({{0, 0}, {400, 0}, {400, 300}, {0, 300}}), 4);
    EXPECT_EQ(index.inside_mm({200, 150}), 4);
    EXPECT_EQ(index.inside_mm({-50, 150}), -4);
    EXPECT_EQ(index.inside_mm({0.5, 150}), 0.5);
}

TEST(EdgeIndex, KnowsTheLastOfAnyNumberOfRows) {
    // Buckets as large as 1.2 rows: the middle of one lay on the upper edge of 3, 9, 15, 21 .. rows.
    for (int rows = 1; rows < 60; ++rows)
        for (const double height : {7.3, 13.40053, 16.0 / 3}) {
            const double low = -0.504, top = low + rows * height;
            const EdgeIndex index(region_of({{low, low}, {300 - low, low}, {300 - low, top}, {low, top}}),
                                  1.2 * height);
            for (double x = 20; x < 280; x += 3.1)
                EXPECT_NEAR(index.inside_mm({x, top - height / 2}), height / 2, 1e-3) << rows;
        }
}

}  // namespace
}  // namespace rakelight
