// Classicum: halo rows, and straight rows that die square against them. Rules of the opus: common practice,
// no published source.
#include <gtest/gtest.h>

#include <ostream>
#include <string>

#include "scene/laying/region_plan.h"
#include "scene/model/layout.h"
#include "scene/opus/opera.h"
#include "scene/opus/opus.h"
#include "tests/support/laying_samples.h"
#include "tests/support/opus_checks.h"

namespace rakelight {
namespace {

struct Case {
    const char* name;
    bool curved;
    bool holed;
    double angle_deg;
};

void PrintTo(const Case& c, std::ostream* out) {
    *out << c.name;
}

class Classicum : public ::testing::TestWithParam<Case> {
  protected:
    void SetUp() override {
        layout = sample_layout(Opus::classicum, 12, 10, 1.5);
        Field& field = layout.fields[0];
        if (GetParam().curved) field.outline = bean();
        field.angle_deg = GetParam().angle_deg;
        std::vector<Ring> holes;
        if (GetParam().holed) {
            Ring hole;  // a figure of 120 by 80 mm
            for (int i = 0; i < 60; ++i) {
                const double turn = i * 2 * 3.14159265358979 / 60;
                hole.emplace_back(300 + 60 * std::cos(turn), 190 + 40 * std::sin(turn));
            }
            holes.push_back(hole);
        }
        const Region ground = plan_regions(layout, holes)[0];
        hand = hand_of(field);
        HeadJoints heads(hand.pitch);
        within = lay_halo(ground, ground, 2, hand, heads, 3, halo);
        rule_of(Opus::classicum).lay({field, within, within, {}, hand, heads, 4}, rows);
        ASSERT_GT(rows.size(), 100u);
    }
    Layout layout;
    FieldHand hand;
    Region within;  // the halo's inner edge
    std::vector<Piece> halo;
    std::vector<Piece> rows;
};

TEST_P(Classicum, NothingOverlaps) {
    auto all = halo;
    all.insert(all.end(), rows.begin(), rows.end());
    EXPECT_LT(largest_overlap_mm2(all), 1e-6);
}

TEST_P(Classicum, RowsDieSquareAgainstTheHalo) {
    // The cut edge of a piece that meets the halo runs along it: on average to the half joint that the piece
    // is drawn in, and in its direction. A row cut without regard to the halo would miss it by up to 90
    // degrees.
    double off = 0, turn = 0;
    int edges = 0;
    for (const auto& piece : rows) {
        const Ring& ring = piece.outline_mm;
        for (std::size_t k = 0; k < ring.size(); ++k) {
            const glm::dvec2 &a = ring[k], &b = ring[(k + 1) % ring.size()];
            const double length = glm::distance(a, b);
            if (length < 4 || off_region_line_mm(within, (a + b) / 2.0) > 1.5) continue;
            const double da = off_region_line_mm(within, a), db = off_region_line_mm(within, b);
            off += off_region_line_mm(within, (a + b) / 2.0);
            turn += glm::degrees(std::abs(std::atan2(da - db, length)));
            ++edges;
        }
    }
    ASSERT_GT(edges, 60);
    EXPECT_LT(turn / edges, 3.0);
    EXPECT_NEAR(off / edges, 1.5 / 2, 0.1 * 1.5);
}

TEST_P(Classicum, JointAgainstTheHaloIsThatOfTheField) {
    std::vector<double> joints;
    for (const auto& piece : rows)
        for (std::size_t k = 0; k < piece.outline_mm.size(); ++k) {
            const glm::dvec2 &a = piece.outline_mm[k],
                             &b = piece.outline_mm[(k + 1) % piece.outline_mm.size()];
            const glm::dvec2 p = (a + b) / 2.0;
            if (glm::distance(a, b) < 4 || off_region_line_mm(within, p) > 1.5) continue;
            double least = 1e9;
            for (const auto& other : halo) least = std::min(least, off_ring_mm(other.outline_mm, p));
            if (least < 3) joints.push_back(least);
        }
    ASSERT_GT(joints.size(), 60u);
    const double in_field = mean_and_sd(joints_mm(rows, 4, 3.5)).first;
    EXPECT_NEAR(mean_and_sd(joints).first, in_field, 0.1 * in_field);
    EXPECT_NEAR(in_field, 1.5, 0.05 * 1.5);
}

TEST_P(Classicum, NoRemnants) {
    // None of less than a third of a piece; none more than half again as long and as wide as a whole one.
    int small = 0;
    for (const auto& piece : rows) {
        const double share = area_mm2(piece.outline_mm) / (12 * 10);
        small += share < 1.0 / 3;
        EXPECT_LT(share, 1.5 * 1.5);
    }
    EXPECT_EQ(small, 0) << "of " << rows.size();
}

TEST_P(Classicum, GroundIsCovered) {
    // L h / ((L + j)(h + j)) of the ground is stone, by closed form; shares at the edge change it a little.
    double area = 0;
    for (const auto& piece : rows) area += area_mm2(piece.outline_mm);
    EXPECT_NEAR(area / area_mm2(within), 12.0 * 10 / (13.5 * 11.5), 0.02);
}

TEST_P(Classicum, WholePiecesStandInStraightRows) {
    const double turn = glm::radians(GetParam().angle_deg);
    int square = 0;
    for (const auto& piece : rows) {
        EXPECT_NEAR(piece.along.x, std::cos(turn), 1e-12);
        const Ring& ring = piece.outline_mm;
        for (std::size_t k = 0; k < ring.size(); ++k) {
            const glm::dvec2 side = ring[(k + 1) % ring.size()] - ring[k];
            if (glm::length(side) < 5) continue;
            const double off = std::abs(glm::dot(glm::normalize(side), piece.along));
            square += off > std::cos(glm::radians(6.0));  // a bed joint, as straight as a hand lays it
        }
    }
    EXPECT_GT(square, static_cast<int>(rows.size()));
}

INSTANTIATE_TEST_SUITE_P(Fields, Classicum,
                         ::testing::Values(Case{"straight", false, false, 0}, Case{"bean", true, false, 0},
                                           Case{"bean_turned", true, false, 25},
                                           Case{"holed", false, true, 0}, Case{"holed_bean", true, true, 12}),
                         [](const auto& test) { return std::string(test.param.name); });

}  // namespace
}  // namespace rakelight
