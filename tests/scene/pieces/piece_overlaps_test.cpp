// Overlaps of squares, discs and rings of squares, against closed forms.
#include "scene/pieces/piece_overlaps.h"

#include <gtest/gtest.h>

namespace rakelight {
namespace {

Ring square(double x, double y, double side) {
    return {{x, y}, {x + side, y}, {x + side, y + side}, {x, y + side}};
}

std::vector<Overlap> of(const std::vector<Ring>& rings, double tolerance_mm = 0.1) {
    std::vector<const Ring*> all;
    for (const Ring& ring : rings) all.push_back(&ring);
    return overlaps(all, tolerance_mm);
}

TEST(PieceOverlaps, TwoSquaresShareARectangle) {
    const auto found = of({square(0, 0, 10), square(9, 7, 10)});
    ASSERT_EQ(found.size(), 1u);
    EXPECT_EQ(found[0].first, 0u);
    EXPECT_EQ(found[0].second, 1u);
    EXPECT_NEAR(found[0].area_mm2, 1 * 3, 1e-3);
    EXPECT_NEAR(found[0].at_mm.x, 9.5, 1e-3);
    EXPECT_NEAR(found[0].at_mm.y, 8.5, 1e-3);
}

TEST(PieceOverlaps, TouchingAndToleranceAreNone) {
    EXPECT_TRUE(of({square(0, 0, 10), square(10, 0, 10)}).empty());
    EXPECT_TRUE(of({square(0, 0, 10), square(9.95, 0, 10)}).empty());
    EXPECT_EQ(of({square(0, 0, 10), square(9.85, 0, 10)}).size(), 1u);
    EXPECT_TRUE(of({}).empty());
}

TEST(PieceOverlaps, APieceWithinAnotherIsFound) {
    const auto found = of({square(20, 20, 2), square(0, 0, 50)});
    ASSERT_EQ(found.size(), 1u);
    EXPECT_NEAR(found[0].area_mm2, 4, 1e-3);
}

// In a lattice whose squares are as much too large as its pitch is small, each meets its eight neighbours:
// pairs are 2 n (n - 1) along the sides and 2 (n - 1)^2 across the corners. A lone large one meets all.
TEST(PieceOverlaps, FindsEachPairOnce) {
    constexpr int n = 12;
    std::vector<Ring> rings;
    for (int y = 0; y < n; ++y)
        for (int x = 0; x < n; ++x) rings.push_back(square(10 * x, 10 * y, 11));
    EXPECT_EQ(of(rings).size(), static_cast<std::size_t>(2 * n * (n - 1) + 2 * (n - 1) * (n - 1)));
    rings.push_back(square(-5, -5, 200));
    EXPECT_EQ(of(rings).size(), static_cast<std::size_t>(2 * n * (n - 1) + 2 * (n - 1) * (n - 1) + n * n));
}

}  // namespace
}  // namespace rakelight
