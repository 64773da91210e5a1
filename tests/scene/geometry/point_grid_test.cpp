#include "scene/geometry/point_grid.h"

#include <gtest/gtest.h>

#include <set>

#include "materials/maths/hash.h"

namespace rakelight {
namespace {

constexpr double kCell_mm = 7;

struct Strewn {
    std::vector<glm::dvec2> points;
    PointGrid<std::size_t> grid{kCell_mm, {3, -2}};

    Strewn() {
        Rng rng(11);
        for (std::size_t i = 0; i < 800; ++i) {
            points.emplace_back(rng.within(-60, 60), rng.within(-60, 60));
            grid.add(points[i], i);
        }
    }
};

TEST(PointGrid, FindsAllThatASearchOfAllFinds) {
    const Strewn all;
    for (std::size_t k = 0; k < all.points.size(); k += 7) {
        std::set<std::size_t> near, found;
        for (std::size_t i = 0; i < all.points.size(); ++i)
            if (glm::distance(all.points[i], all.points[k]) < kCell_mm) near.insert(i);
        all.grid.each_near(all.points[k], 1, [&](std::size_t i) {
            if (glm::distance(all.points[i], all.points[k]) >= kCell_mm) return;
            EXPECT_TRUE(found.insert(i).second);
        });
        EXPECT_EQ(found, near);
    }
}

TEST(PointGrid, OutwardsMeetsTheSameAsASquareAndTheNearestCellsFirst) {
    const Strewn all;
    const glm::dvec2 here = all.points[5];
    std::set<std::size_t> square, rings;
    all.grid.each_near(here, 3, [&](std::size_t i) { square.insert(i); });
    double least = 0;
    const auto note = [&](double mm) {
        least = mm;
        return true;
    };
    all.grid.outwards(here, 3, note, [&](std::size_t i) {
        EXPECT_GE(glm::distance(all.points[i], here), least);
        EXPECT_TRUE(rings.insert(i).second);
    });
    EXPECT_EQ(rings, square);
    EXPECT_DOUBLE_EQ(least, 2 * kCell_mm);
}

TEST(PointGrid, StopsWhereItIsTold) {
    const Strewn all;
    int seen = 0;
    EXPECT_FALSE(all.grid.all_near({0, 0}, 4, [&](std::size_t) { return ++seen < 3; }));
    EXPECT_EQ(seen, 3);
    EXPECT_TRUE(all.grid.all_near({1e5, 1e5}, 4, [](std::size_t) { return false; }));  // nobody there
}

}  // namespace
}  // namespace rakelight
