#include "scene/flow/row.h"

#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include "scene/geometry/region.h"

namespace rakelight {
namespace {

constexpr double kTurn = 6.283185307179586;

Ring circle(double radius, int points) {
    Ring ring;
    for (int i = 0; i < points; ++i)
        ring.emplace_back(radius * std::cos(kTurn * i / points), radius * std::sin(kTurn * i / points));
    return ring;
}

TEST(Row, ResampledKeepsEndsAndSpacesEvenly) {
    const auto line = resampled({{{0, 0}, {3, 0}, {3, 7}}, false}, 1);
    ASSERT_EQ(line.size(), 11u);
    EXPECT_EQ(line.front(), glm::dvec2(0, 0));
    EXPECT_EQ(line.back(), glm::dvec2(3, 7));
    EXPECT_NEAR(glm::distance(line[7], glm::dvec2(3, 4)), 0, 1e-9);
}

TEST(Row, CornersAreBrokenCurvesAreNot) {
    EXPECT_EQ(broken_at_corners({{{0, 0}, {100, 0}, {100, 60}, {0, 60}}, true}, 10, 50).size(), 4u);
    EXPECT_EQ(broken_at_corners({circle(60, 200), true}, 10, 50).size(), 1u);
}

// The wedge of a keystone: at radius R a piece of middle length L and width h measures L(1 - h/2R) at its
// inner edge and L(1 + h/2R) at its outer one (similar triangles). The ground of the piece is cut here from a
// row on a circle.
class Keystone : public ::testing::TestWithParam<double> {};

TEST_P(Keystone, InnerAndOuterEdges) {
    const double radius = GetParam();
    const double width = 10;
    const int count = static_cast<int>(std::lround(kTurn * radius / 10));
    const double length = kTurn * radius / count;
    const Pitch pitch{length, width};
    HeadJoints heads(pitch);
    Rng rng(3);
    const auto seeds = cut_row({circle(radius, 2000), true}, pitch, 0, heads, rng);
    ASSERT_EQ(seeds.size(), static_cast<std::size_t>(count));
    const Region band =
        subtract(region_of(circle(radius + width / 2, 4000)), region_of(circle(radius - width / 2, 4000)));
    double inner = 0, outer = 0;
    for (const auto& cell : share_out(seeds, band).of_seed) {
        ASSERT_GE(cell.size(), 4u);
        double low = 1e9, high = -1e9, arc_in = 0, arc_out = 0;
        for (std::size_t i = 0; i < cell.size(); ++i) {
            const auto &a = cell[i], &b = cell[(i + 1) % cell.size()];
            const double ra = glm::length(a), rb = glm::length(b);
            low = std::min(low, ra);
            high = std::max(high, ra);
            if (ra < radius - 4.9 && rb < radius - 4.9) arc_in += glm::distance(a, b);
            if (ra > radius + 4.9 && rb > radius + 4.9) arc_out += glm::distance(a, b);
        }
        EXPECT_NEAR(high - low, width, 0.02);
        inner += arc_in / count;
        outer += arc_out / count;
    }
    EXPECT_NEAR(inner, length * (1 - width / (2 * radius)), 0.01 * length);
    EXPECT_NEAR(outer, length * (1 + width / (2 * radius)), 0.01 * length);
}
INSTANTIATE_TEST_SUITE_P(Radii, Keystone, ::testing::Values(30.0, 50.0, 80.0, 153.0),
                         [](const auto& test) { return std::to_string(std::lround(test.param)) + "_mm"; });

TEST(Row, RemainderIsSpreadAlongTheRow) {
    // 105 mm at a pitch of 10: no piece may be a remnant, all the length is used.
    const Pitch pitch{10, 10};
    HeadJoints heads(pitch);
    Rng rng(1);
    const auto seeds = cut_row({{{0, 0}, {105, 0}}, false}, pitch, 0, heads, rng);
    EXPECT_TRUE(seeds.size() == 10 || seeds.size() == 11);
    const Cells cells = share_out(seeds, region_of({{0, -5}, {105, -5}, {105, 5}, {0, 5}}));
    for (const auto& cell : cells.of_seed) {
        EXPECT_GT(area_mm2(cell), 60);
        EXPECT_LT(area_mm2(cell), 150);
    }
}

TEST(Row, HeadsKeepOffTheHeadsOfTheRowBefore) {
    // Common rule: no head within 0.2 of a pitch of a neighbour's head. Two rows of equal length and no
    // freedom but the cut: only the ends may meet.
    const Pitch pitch{10, 10};
    HeadJoints heads(pitch);
    Rng rng(1);
    const auto first = cut_row({{{0, 0}, {300, 0}}, false}, pitch, 0.05, heads, rng);
    const auto second = cut_row({{{0, 10}, {300, 10}}, false}, pitch, 0.05, heads, rng);
    const auto stations = [](const std::vector<Seed>& seeds) {
        std::vector<double> out;
        for (std::size_t i = 1; i < seeds.size(); ++i)
            out.push_back((seeds[i - 1].points_mm.back().x + seeds[i].points_mm.front().x) / 2);
        return out;
    };
    int near = 0, all = 0;
    for (const double s : stations(second)) {
        ++all;
        for (const double t : stations(first)) near += std::abs(s - t) < 2;
    }
    ASSERT_GT(all, 20);
    EXPECT_LE(near, all / 10);
}

}  // namespace
}  // namespace rakelight
