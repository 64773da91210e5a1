#include "scene/flow/cells.h"

#include <gtest/gtest.h>

#include "materials/maths/hash.h"

namespace rakelight {
namespace {

TEST(Cells, ShareOutTheWholeRegionWithoutOverlap) {
    const Region ground = subtract(region_of({{0, 0}, {100, 0}, {120, 60}, {50, 40}, {0, 80}}),
                                   region_of({{30, 20}, {45, 20}, {45, 30}, {30, 30}}));
    std::vector<Seed> seeds;
    Rng rng(5);
    while (seeds.size() < 60) {
        const glm::dvec2 p(rng.within(0, 120), rng.within(0, 80));
        if (contains(ground, p)) seeds.push_back({{p, p + glm::dvec2(1.5, 0.5)}, {1, 0}});
    }
    const Cells cells = share_out(seeds, ground);
    double sum = 0;
    Region all;
    for (const auto& list : {cells.of_seed, cells.orphans})
        for (const auto& ring : list) {
            sum += area_mm2(ring);
            all = unite(all, {{ring}});
        }
    EXPECT_NEAR(sum, area_mm2(ground), 0.05);
    EXPECT_NEAR(area_mm2(all), area_mm2(ground), 0.05);
}

TEST(Cells, TwoSeedsAreHalvedByTheirBisector) {
    const Cells cells = share_out(std::vector<Seed>{{{{3, 5}}, {1, 0}}, {{{7, 5}}, {1, 0}}},
                                  region_of({{0, 0}, {10, 0}, {10, 10}, {0, 10}}));
    EXPECT_NEAR(area_mm2(cells.of_seed[0]), 50, 1e-3);
    EXPECT_NEAR(bounds(cells.of_seed[0]).high.x, 5, 1e-3);
}

TEST(Cells, SettlingMovesSeedsToTheMiddle) {
    // Lloyd: one seed alone in a square ends at its centre.
    std::vector<Seed> seeds{{{{1, 2}}, {1, 0}}};
    const Region square = region_of({{0, 0}, {10, 0}, {10, 10}, {0, 10}});
    Cells cells = share_out(seeds, square);
    for (int round = 0; round < 6; ++round) cells = settle(cells, seeds, square, 1, 1);
    EXPECT_NEAR(seeds[0].points_mm[0].x, 5, 1e-3);
    EXPECT_NEAR(seeds[0].points_mm[0].y, 5, 1e-3);
}

}  // namespace
}  // namespace rakelight
