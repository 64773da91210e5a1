#include "scene/opus/head_joints.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "scene/flow/keystone.h"
#include "scene/flow/row.h"
#include "tests/support/row_measures.h"

namespace rakelight {
namespace {

constexpr double kTurn = 6.283185307179586;
constexpr double kWidth = 10;

// A closed row of about 10 by 10 mm on a circle, its heads straightened.
struct Ringed {
    std::vector<Seed> seeds;
    std::vector<Ring> before, cells;
    double pitch_mm = 0;
};

Ringed row_on_circle(double radius, double tolerance_mm, double lean_rad) {
    const auto circle = [](double r) {
        Ring ring;
        for (int i = 0; i < 3000; ++i)
            ring.emplace_back(r * std::cos(kTurn * i / 3000), r * std::sin(kTurn * i / 3000));
        return ring;
    };
    Ringed out;
    const double count = std::round(kTurn * radius / 10);
    out.pitch_mm = kTurn * radius / count;
    const Pitch pitch{out.pitch_mm, kWidth};
    HeadJoints heads(pitch);
    Rng rng(3);
    out.seeds = cut_row({circle(radius), true}, pitch, 0, heads, rng);
    const Region band =
        subtract(region_of(circle(radius + kWidth / 2)), region_of(circle(radius - kWidth / 2)));
    out.before = out.cells = share_out(out.seeds, band).of_seed;
    const std::vector<std::size_t> row_of(out.seeds.size(), 0);
    straighten_heads(out.cells, out.seeds, row_of, {kWidth, tolerance_mm, lean_rad}, 5);
    return out;
}

double mean_wedge_deg(const Ringed& row) {
    double sum = 0;
    for (std::size_t i = 0; i < row.cells.size(); ++i) {
        Piece piece;
        piece.outline_mm = row.cells[i];
        piece.along = row.seeds[i].along;
        sum += wedge_deg(piece) / static_cast<double>(row.cells.size());
    }
    return sum;
}

TEST(HeadJoints, NoPieceIsWedgedBeyondWhatANipperHolds) {
    // A row that turns by 70 degrees along one piece: what its neighbours leave it is 31 degrees.
    const double turn = glm::radians(70.0), radius = 12, straight = 40;
    const auto at = [&](double s) -> std::pair<glm::dvec2, glm::dvec2> {  // place and direction
        const double t = std::clamp((s - straight) / radius, 0.0, turn);
        const glm::dvec2 along(std::cos(t), std::sin(t));
        const glm::dvec2 arc = glm::dvec2(straight, radius) + radius * glm::dvec2(std::sin(t), -std::cos(t));
        return {arc + (s < straight ? s - straight : std::max(0.0, s - straight - radius * turn)) * along,
                along};
    };
    const double end = 2 * straight + radius * turn;
    Ring band;
    for (double s = 0; s < end; s += 0.25) {
        const auto [p, u] = at(s);
        band.push_back(p + 5.0 * glm::dvec2(u.y, -u.x));
    }
    for (double s = end; s > 0; s -= 0.25) {
        const auto [p, u] = at(s);
        band.push_back(p - 5.0 * glm::dvec2(u.y, -u.x));
    }
    std::vector<Seed> seeds;
    const auto piece = [&](double from, double to) {
        Seed seed{{}, at((from + to) / 2).second};
        for (int k = 0; k < 5; ++k)
            seed.points_mm.push_back(at(from + 1.2 + (to - from - 2.4) * k / 4).first);
        seeds.push_back(seed);
    };
    for (int k = 0; k < 4; ++k) piece(10.0 * k, 10.0 * k + 10);
    piece(straight, straight + radius * turn);
    for (int k = 0; k < 4; ++k) piece(end - straight + 10.0 * k, end - straight + 10.0 * k + 10);
    std::vector<Ring> cells = share_out(seeds, region_of(band)).of_seed;
    const std::vector<std::size_t> row_of(seeds.size(), 0);
    straighten_heads(cells, seeds, row_of, {kWidth, 0.75, 0}, 5);
    for (std::size_t i = 1; i + 1 < seeds.size(); ++i) {
        Piece cut;
        cut.outline_mm = cells[i];
        cut.along = seeds[i].along;
        EXPECT_LT(wedge_deg(cut), kMostWedge_deg) << i;
    }
}

TEST(HeadJoints, RectanglesWhereTheJointTakesTheOpening) {
    // P h / R against the tolerance: R = 153 is more than P h / 0.75 = 133 mm.
    ASSERT_LT(head_opening_mm(10, kWidth, 153), 0.75);
    EXPECT_LT(mean_wedge_deg(row_on_circle(153, 0.75, 0)), 0.1);
}

TEST(HeadJoints, KeystonesTakeWhatTheJointLeaves) {
    // Beyond it the wedge is P / R less what the joint takes, tolerance / h.
    for (const double radius : {30.0, 50.0, 80.0}) {
        const Ringed row = row_on_circle(radius, 0.75, 0);
        const double expected = row.pitch_mm / radius - 0.75 / kWidth;
        EXPECT_NEAR(mean_wedge_deg(row), glm::degrees(expected), 0.4) << radius;
    }
}

TEST(HeadJoints, FullKeystonesShareTheirHeads) {
    // With no tolerance nothing overlaps and nothing is lost: the cells still make up the ground.
    const Ringed row = row_on_circle(40, 0, 0);
    double before = 0, after = 0;
    for (const auto& cell : row.before) before += area_mm2(cell);
    for (const auto& cell : row.cells) after += area_mm2(cell);
    EXPECT_NEAR(after, before, 1e-3);
}

TEST(HeadJoints, TheHandLeansWholeJoints) {
    // Both sides of a joint lean alike, so that ground is neither lost nor taken twice.
    const Ringed row = row_on_circle(200, 0, 0.03);
    EXPECT_GT(mean_wedge_deg(row), glm::degrees(row.pitch_mm / 200) * 0.9);
    double before = 0, after = 0;
    for (const auto& cell : row.before) before += area_mm2(cell);
    for (const auto& cell : row.cells) after += area_mm2(cell);
    EXPECT_NEAR(after, before, 0.5);
}

TEST(HeadJoints, RowsOfOneOrNoPieceStayAsTheyAre) {
    std::vector<Ring> cells{{{0, 0}, {10, 0}, {10, 10}, {0, 10}}, {}};
    const auto before = cells;
    const std::vector<Seed> seeds{{{{5, 5}}, {1, 0}}, {}};
    const std::vector<std::size_t> row_of{0, 0};
    straighten_heads(cells, seeds, row_of, {}, 1);
    EXPECT_EQ(cells, before);
}

}  // namespace
}  // namespace rakelight
