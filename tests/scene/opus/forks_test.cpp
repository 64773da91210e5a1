// A row that ends between two others, drawn by hand: three rows on the left, two on the right.
#include "scene/opus/forks.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "scene/opus/cutting.h"

namespace rakelight {
namespace {

constexpr double kPitch_mm = 10, kJoint_mm = 1;

// The height of the upper row: it comes down by half a row where the middle one ends, and the lower goes up.
double bent(double x) {
    const double t = std::clamp((x - 40) / 30, 0.0, 1.0);
    return 10 - 5 * t * t * (3 - 2 * t);
}

struct Rows {
    Region ground{{{{0, -15}, {100, -15}, {100, 15}, {0, 15}}}};
    std::vector<Seed> seeds;
    std::vector<std::size_t> row_of;
    Cells cells;
    Rows() {
        const auto lay = [&](std::size_t row, double from, double to, auto&& height) {
            for (double x = from; x + kPitch_mm <= to + 1e-9; x += kPitch_mm) {
                Seed seed;
                for (double t = 1.5; t < kPitch_mm; t += 3.5)
                    seed.points_mm.emplace_back(x + t, height(x + t));
                seeds.push_back(seed);
                row_of.push_back(row);
            }
        };
        lay(0, 5, 95, [](double x) { return bent(x); });
        lay(1, 0, 50, [](double) { return 0.0; });
        lay(2, 5, 95, [](double x) { return -bent(x); });
        cells = share_out(seeds, ground);
    }
};

TEST(Forks, TheLastPieceIsAWedgeAndNothingIsLostOrLaidTwice) {
    Rows rows;
    const std::size_t last = 13;  // the fifth of the middle row
    ASSERT_EQ(rows.row_of[last], 1u);
    const Ring nosed = rows.cells.of_seed[last];
    cut_forks(rows.cells, rows.seeds, rows.row_of, std::vector<RowEnd>{{last, last - 1}},
              {kPitch_mm, kPitch_mm, kJoint_mm});
    const Ring& wedge = rows.cells.of_seed[last];
    EXPECT_NE(wedge, nosed);
    // The tip is 0.34 of a piece wide, and its joint; it is square to the wedge.
    double tip = 0;
    glm::dvec2 upper{0}, lower{0};
    for (const auto& [a, b] : edges(wedge))
        if (std::min(a.x, b.x) > 45 && std::abs(a.y - b.y) > std::abs(a.x - b.x)) {
            tip = glm::distance(a, b);
            upper = a.y > b.y ? a : b;
            lower = a.y > b.y ? b : a;
        }
    EXPECT_NEAR(tip, 0.34 * (kPitch_mm - kJoint_mm) + kJoint_mm, 1e-6);
    // No more than 25 degrees between its long sides: what a nipper holds.
    glm::dvec2 above{0, -1e9}, below{0, 1e9};
    for (const auto& p : wedge) {
        if (p.x > 45) continue;
        if (p.y > above.y) above = p;
        if (p.y < below.y) below = p;
    }
    const double taper =
        std::atan2(above.y - upper.y, upper.x - above.x) + std::atan2(lower.y - below.y, lower.x - below.x);
    EXPECT_GT(glm::degrees(taper), 5);
    EXPECT_LT(glm::degrees(taper), 25);
    double sum = 0;
    for (std::size_t i = 0; i < rows.cells.of_seed.size(); ++i) {
        sum += area_mm2(rows.cells.of_seed[i]);
        for (std::size_t k = 0; k < i; ++k)
            EXPECT_LT(area_mm2(intersect({{rows.cells.of_seed[i]}}, {{rows.cells.of_seed[k]}})), 1e-3)
                << i << ' ' << k;
    }
    EXPECT_NEAR(sum, 100 * 30, 0.1);
}

TEST(Forks, AHeadComesToTheTip) {
    Rows rows;
    const std::size_t last = 13;
    cut_forks(rows.cells, rows.seeds, rows.row_of, std::vector<RowEnd>{{last, last - 1}},
              {kPitch_mm, kPitch_mm, kJoint_mm});
    // No cell beside the wedge is hollow, as one cut round its tip would be: by 90 degrees and more.
    for (std::size_t i = 0; i < rows.cells.of_seed.size(); ++i) {
        const Ring& ring = rows.cells.of_seed[i];
        for (std::size_t k = 0; k < ring.size(); ++k)
            EXPECT_LT(interior_angle_deg(ring, k), 215) << i << ": " << ring[k].x << ' ' << ring[k].y;
    }
}

TEST(Forks, AHeadComesToTheTipOfARowThatRunsOutAlongAnEdgeToo) {
    Rows rows;
    const std::size_t last = 13;
    cut_forks(rows.cells, rows.seeds, rows.row_of, std::vector<RowEnd>{{last, last - 1, true}},
              {kPitch_mm, kPitch_mm, kJoint_mm});
    for (const Ring& ring : rows.cells.of_seed)
        for (std::size_t k = 0; k < ring.size(); ++k)
            EXPECT_LT(interior_angle_deg(ring, k), 215) << ring[k].x << ' ' << ring[k].y;
}

// How many cells have a corner within a joint of `p`.
int corners_at(const Cells& cells, const glm::dvec2& p) {
    int met = 0;
    for (const Ring& ring : cells.of_seed)
        met += std::any_of(ring.begin(), ring.end(),
                           [&](const glm::dvec2& q) { return glm::distance(p, q) < kJoint_mm; });
    return met;
}

TEST(Forks, NoHeadAtTheTipWhereItWouldMeetAHeadOfTheRowBeyond) {
    const std::size_t last = 13;
    Rows free;
    cut_forks(free.cells, free.seeds, free.row_of, std::vector<RowEnd>{{last, last - 1}},
              {kPitch_mm, kPitch_mm, kJoint_mm});
    // The end of the head that was moved, on the outer side of its row.
    Rows untouched;
    glm::dvec2 end{0};
    for (std::size_t s = 0; s < free.cells.of_seed.size(); ++s)
        for (const auto& p : free.cells.of_seed[s])
            if (std::abs(p.y) > 14.9 && std::abs(p.x) > 1 && std::abs(p.x - 100) > 1 &&
                corners_at(untouched.cells, p) < 2)
                end = p;
    ASSERT_GT(std::abs(end.y), 14.9);
    // Rows beyond on both sides, with a head just there.
    Rows rows;
    rows.ground = {{{{0, -28}, {100, -28}, {100, 28}, {0, 28}}}};
    for (const double y : {23.0, -23.0})
        for (double x = std::fmod(end.x, kPitch_mm); x + kPitch_mm <= 100; x += kPitch_mm) {
            rows.seeds.push_back({{{x + 1.5, y}, {x + 5, y}, {x + 8.5, y}}});
            rows.row_of.push_back(y > 0 ? 3 : 4);
        }
    rows.cells = share_out(rows.seeds, rows.ground);
    const Cells before = rows.cells;
    cut_forks(rows.cells, rows.seeds, rows.row_of, std::vector<RowEnd>{{last, last - 1}},
              {kPitch_mm, kPitch_mm, kJoint_mm});
    ASSERT_NE(rows.cells.of_seed[last], before.of_seed[last]);
    for (const Ring& ring : rows.cells.of_seed)
        for (const auto& p : ring)
            if (corners_at(before, p) < 4) {
                EXPECT_LT(corners_at(rows.cells, p), 4) << p.x << ' ' << p.y;
            }
}

TEST(Forks, AHeadAtALeaningTipIsSquareToItsOwnRow) {
    Rows rows;
    const std::size_t last = 13;
    for (const std::size_t s : {last - 1, last})
        for (auto& p : rows.seeds[s].points_mm) p.y += 0.25 * (p.x - 30);  // by fourteen degrees
    for (Seed& seed : rows.seeds) seed.along = {1, 0};
    rows.cells = share_out(rows.seeds, rows.ground);
    const auto before = rows.cells.of_seed;
    cut_forks(rows.cells, rows.seeds, rows.row_of, std::vector<RowEnd>{{last, last - 1}},
              {kPitch_mm, kPitch_mm, kJoint_mm});
    ASSERT_GT(std::abs(rows.seeds[last].along.y), 0.08);
    // The head that was moved: a long side that two cells of an outer row share, near the tip.
    int moved = 0;
    for (std::size_t i = 1; i < rows.seeds.size(); ++i) {
        if (rows.row_of[i] != rows.row_of[i - 1] || rows.row_of[i] == 1) continue;
        for (const auto& [a, b] : edges(rows.cells.of_seed[i])) {
            const auto held = [](const Ring& ring, const glm::dvec2& p) {
                return std::any_of(ring.begin(), ring.end(),
                                   [&](const glm::dvec2& q) { return glm::distance(p, q) < 1e-3; });
            };
            const Ring& other = rows.cells.of_seed[i - 1];
            if (std::min(a.x, b.x) < 46 || std::max(a.x, b.x) > 72 || glm::distance(a, b) < 5 ||
                !held(other, a) || !held(other, b) || held(before[i], a) || held(before[i], b))
                continue;
            ++moved;
            EXPECT_NEAR(a.x, b.x, 1e-3);
        }
    }
    EXPECT_EQ(moved, 1);
}

TEST(Forks, WhatIsNotSideBySideStaysAsItIs) {
    Rows rows;
    const auto before = rows.cells.of_seed;
    cut_forks(rows.cells, rows.seeds, rows.row_of, std::vector<RowEnd>{{13, 9}},
              {kPitch_mm, kPitch_mm, kJoint_mm});
    EXPECT_EQ(rows.cells.of_seed, before);
}

}  // namespace
}  // namespace rakelight
