// A floor of boards covers its room, its rows are as wide as is said, and its ends are staggered.
#include "scene/room/boards.h"

#include <gtest/gtest.h>

#include <cmath>
#include <map>

#include "scene/geometry/solid.h"
#include "scene/room/joinery.h"
#include "tests/support/mesh_checks.h"

using namespace rakelight;

TEST(Boards, CoverTheFloorOnce) {
    for (const auto& [across, along, wide] :
         {std::tuple{5200.0, 5600.0, 140.0}, {4200.0, 3000.0, 140.0}, {100.0, 800.0, 180.0}}) {
        double area = 0;
        for (const FloorBoard& b : lay_boards(across, along, wide, 7)) {
            const glm::dvec2 size = b.high_mm - b.low_mm;
            EXPECT_GT(size.x, 0);
            EXPECT_GT(size.y, 0);
            area += size.x * size.y;
        }
        EXPECT_NEAR(area, across * along, 1);
    }
}

TEST(Boards, AreAsWideAsIsSaidAndCutAlikeAtBothWalls) {
    std::map<int, double> width;
    for (const FloorBoard& b : lay_boards(5200, 5600, 140, 7)) width[b.row] = b.high_mm.x - b.low_mm.x;
    // 5200 = 37 * 140 + 20: 36 whole rows, and (20 + 140) / 2 at each wall.
    ASSERT_EQ(width.size(), 38u);
    for (const auto& [row, mm] : width) EXPECT_NEAR(mm, row == 0 || row == 37 ? 80 : 140, 1e-9);
}

TEST(Boards, EndsOfRowsSideBySideAreApart) {
    std::map<int, std::vector<double>> ends;
    for (const FloorBoard& b : lay_boards(5200, 5600, 140, 3)) {
        EXPECT_GE(b.high_mm.y - b.low_mm.y, kShortestBoard_mm - 1e-9);
        if (b.high_mm.y < 5600 - 1e-9) ends[b.row].push_back(b.high_mm.y);
    }
    int close = 0, all = 0;
    for (int row = 1; row < 38; ++row)
        for (const double a : ends[row]) {
            ++all;
            for (const double b : ends[row - 1]) close += std::abs(a - b) < kLeastStagger_mm;
        }
    ASSERT_GT(all, 60);
    EXPECT_LE(close, all / 50);
}

TEST(Boards, TheSeedLaysTheSameFloorAgain) {
    const auto first = lay_boards(5000, 6000, 120, 1), again = lay_boards(5000, 6000, 120, 1),
               other = lay_boards(5000, 6000, 120, 2);
    ASSERT_EQ(first.size(), again.size());
    for (std::size_t i = 0; i < first.size(); ++i) EXPECT_EQ(first[i].high_mm, again[i].high_mm);
    EXPECT_TRUE(first.size() != other.size() || first[0].high_mm != other[0].high_mm);
}

TEST(EasedBox, IsItsBoxButForTheEdges) {
    const Mesh mesh = eased_box_mesh({-100, 0, 10}, {100, 50, 70}, 4);
    expect_closed(mesh);
    expect_good_normals(mesh);
    // Cut straight at 45 degrees, an edge loses e^2/2 a unit length between corners, a corner of e^3 keeps
    // e^3/6 of the cube.
    const double e = 4, a = 200 - 2 * e, b = 50 - 2 * e, c = 60 - 2 * e;
    EXPECT_NEAR(volume_mm3(mesh), 200. * 50 * 60 - 4 * (a + b + c) * e * e / 2 - 8 * e * e * e * 5 / 6, 1);
    const Mesh thin = eased_box_mesh({0, 0, 0}, {1000, 1, 3}, 5);
    expect_closed(thin);
}
