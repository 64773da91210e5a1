#include "scene/laying/boulders.h"

#include <gtest/gtest.h>

#include <numbers>

#include "scene/laying/region_plan.h"
#include "scene/model/layout.h"
#include "scene/text/diagnostics.h"
#include "tests/support/laying_samples.h"
#include "tests/support/opus_checks.h"
#include "tests/support/refusal.h"

namespace rakelight {
namespace {

Layout with_boulders(int count, glm::dvec2 size_mm) {
    Layout layout = sample_layout(Opus::musivum, 11, 9, 1.5);
    layout.fields[0].outline = bean();
    layout.fields[0].boulders = {kSlag, count, size_mm, 0.45, "chunk"};
    return layout;
}

TEST(Boulders, AsManyAsAskedLargestFirstWithinTheField) {
    const Layout layout = with_boulders(5, {25, 45});
    const auto regions = plan_regions(layout, {});
    const auto stones = strewn_boulders(layout, regions);
    ASSERT_EQ(stones.size(), 5u);
    EXPECT_DOUBLE_EQ(stones[0].size_mm.x, 45);
    EXPECT_NEAR(stones[4].size_mm.x, 25, 1e-9);
    for (std::size_t i = 0; i < stones.size(); ++i) {
        EXPECT_TRUE(i == 0 || stones[i].size_mm.x < stones[i - 1].size_mm.x);
        // Off the edge by its own half length and a row.
        EXPECT_TRUE(contains(regions[0], stones[i].at_mm));
        EXPECT_GT(off_region_line_mm(regions[0], stones[i].at_mm), stones[i].size_mm.x / 2 + 10.5);
        EXPECT_LT(stones[i].proud_mm, stones[i].size_mm.z);
    }
}

TEST(Boulders, SpreadWellApart) {
    // Mean distance to the nearest other over that of pure chance, 1 / (2 sqrt(n / A)) (Clark, Evans,
    // "Distance to nearest neighbor as a measure of spatial relationships", Ecology 35, 1954): 1 = chance,
    // 2.15 = a perfect lattice. Over forty seeds, so that no lucky one decides.
    double sum = 0;
    for (std::uint64_t seed = 1; seed <= 40; ++seed) {
        Layout layout = with_boulders(7, {16, 24});
        layout.panel.seed = seed;
        const auto regions = plan_regions(layout, {});
        const auto stones = strewn_boulders(layout, regions);
        double mean = 0;
        for (const auto& a : stones) {
            double least = 1e9;
            for (const auto& b : stones)
                if (&a != &b) least = std::min(least, glm::distance(a.at_mm, b.at_mm));
            mean += least / static_cast<double>(stones.size());
        }
        sum += mean * 2 * std::sqrt(static_cast<double>(stones.size()) / area_mm2(regions[0])) / 40;
    }
    EXPECT_GT(sum, 1.3);
}

double angle_deg(const glm::dvec2& a, const glm::dvec2& b) {
    return glm::degrees(std::acos(std::min(1.0, std::abs(glm::dot(a, b)))));
}

// Which way the side of a ring runs that is nearest.
glm::dvec2 side_at(const Ring& ring, const glm::dvec2& p) {
    double least = 1e9;
    glm::dvec2 side{1, 0};
    for (const auto& [a, b] : edges(ring))
        if (const double d = distance_mm(p, a, b); d < least && a != b) {
            least = d;
            side = glm::normalize(b - a);
        }
    return side;
}

// Which way rows run some three rows off a stone, by the nearest piece there.
glm::dvec2 stream_at(const Laying& laying, const Ring& stone, const glm::dvec2& p) {
    double least = 1e9;
    glm::dvec2 along{1, 0};
    for (const auto& piece : laying.pieces) {
        const glm::dvec2 c = centroid(piece.outline_mm);
        if (const double d = glm::distance(c, p); d < least && off_ring_mm(stone, c) > 26) {
            least = d;
            along = piece.along;
        }
    }
    return along;
}

TEST(Boulders, RowsFlowRoundThem) {
    const Layout layout = with_boulders(5, {25, 45});
    const Laying laying = lay(layout);
    ASSERT_EQ(laying.stones.size(), 5u);
    for (const auto& stone : laying.stones) {
        const Region body = region_of(stone.footprint_mm);
        double turn = 0;
        int beside = 0;
        for (const auto& piece : laying.pieces) {
            EXPECT_LT(area_mm2(intersect({{piece.outline_mm}}, body)), 1e-6);
            const glm::dvec2 c = centroid(piece.outline_mm);
            const double off = off_ring_mm(stone.footprint_mm, c);
            if (off > 9) continue;
            // At the flanks of a stone the row beside it runs along it: its direction against that of the
            // nearest of the rim.
            const glm::dvec2 side = side_at(stone.footprint_mm, c);
            if (angle_deg(side, stream_at(laying, stone.footprint_mm, c)) > 45) continue;
            turn += angle_deg(piece.along, side);
            ++beside;
        }
        EXPECT_GT(beside, 3);
        EXPECT_LT(turn / beside, 15);  // 22 if they took no notice; threshold of our own
    }
}

TEST(Boulders, AHaloLeadsRowsAllRoundThem) {
    Layout layout = with_boulders(5, {25, 45});
    layout.fields[0].halo_rows = 1;
    const Laying laying = lay(layout);
    for (const auto& stone : laying.stones) {
        double turn = 0;
        int beside = 0;
        for (const auto& piece : laying.pieces) {
            const glm::dvec2 c = centroid(piece.outline_mm);
            if (off_ring_mm(stone.footprint_mm, c) > 7) continue;
            turn += angle_deg(piece.along, side_at(stone.footprint_mm, c));
            ++beside;
        }
        EXPECT_GT(beside, 6);
        EXPECT_LT(turn / beside, 15);  // threshold of our own
    }
}

TEST(Boulders, NoRoomIsSaid) {
    const std::string said = refusal_of([] { lay(with_boulders(60, {60, 90})); });
    EXPECT_NE(said.find("fields[1].boulders: found 60 boulders"), std::string::npos) << said;
}

TEST(Boulders, ASizeThatFitsIsNamedAndDoesFit) {
    const std::string said = refusal_of([] { lay(with_boulders(9, {60, 90})); });
    double low = 0, high = 0;
    const std::size_t at = said.find("; 9 of ");
    ASSERT_NE(at, std::string::npos) << said;
    ASSERT_EQ(std::sscanf(said.c_str() + at, "; 9 of %lf to %lf mm would fit", &low, &high), 2) << said;
    EXPECT_LT(high, 90);
    EXPECT_EQ(lay(with_boulders(9, {low, high})).stones.size(), 9u);
    EXPECT_NE(refusal_of([&] { lay(with_boulders(9, {low + 4, high + 6})); }), "");  // not much too small
}

TEST(Boulders, SameSeedSameStones) {
    const Layout layout = with_boulders(5, {25, 45});
    const auto a = lay(layout), b = lay(layout);
    for (std::size_t i = 0; i < a.stones.size(); ++i)
        EXPECT_EQ(a.stones[i].footprint_mm, b.stones[i].footprint_mm);
    Layout other = layout;
    other.panel.seed = 8;
    EXPECT_NE(lay(other).stones[0].footprint_mm, a.stones[0].footprint_mm);
}

}  // namespace
}  // namespace rakelight
