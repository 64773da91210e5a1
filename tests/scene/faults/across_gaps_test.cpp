// How rows meet across a gap, on walls whose every joint is known.
#include "scene/faults/across_gaps.h"

#include <gtest/gtest.h>

#include <cmath>

#include "scene/laying/laying.h"
#include "scene/model/layout.h"
#include "tests/support/laying_samples.h"

namespace rakelight {
namespace {

constexpr double kJoint_mm = 2, kSide_mm = 10, kPitch_mm = kSide_mm + kJoint_mm;
constexpr int kRows = 10;

Piece block(double x, double y, std::uint32_t field = 0) {
    Piece p;
    p.field = field;
    p.outline_mm = {{x, y}, {x + kSide_mm, y}, {x + kSide_mm, y + kSide_mm}, {x, y + kSide_mm}};
    return p;
}

// Two stacks of ten squares on both sides of a gap from 100 to 140; the right one higher by so much.
struct Stacks {
    Layout layout = sample_layout(Opus::tessellatum, kSide_mm, kSide_mm, kJoint_mm);
    Laying laying;
    explicit Stacks(double higher_mm) {
        layout.panel.width_mm = 240;
        layout.panel.height_mm = kRows * kPitch_mm - kJoint_mm;
        layout.panel.divided = Division{{120}, 40, {"west", "east"}, {}};
        for (int row = 0; row < kRows; ++row) {
            laying.pieces.push_back(block(90, row * kPitch_mm));
            laying.pieces.push_back(block(140, row * kPitch_mm + higher_mm));
        }
    }
};

TEST(AcrossGaps, LevelRowsMeet) {
    const Stacks s(0);
    const auto gaps = across_gaps(s.layout, s.laying);
    ASSERT_EQ(gaps.size(), 1u);
    EXPECT_EQ(gaps[0].left, "west");
    EXPECT_EQ(gaps[0].right, "east");
    EXPECT_EQ(gaps[0].from_mm, 100);
    EXPECT_EQ(gaps[0].to_mm, 140);
    EXPECT_EQ(gaps[0].rows.lines, 9u);  // between ten rows
    EXPECT_EQ(gaps[0].rows.meet, 9u);
    EXPECT_NEAR(gaps[0].rows.worst_mm, 0, 1e-9);
    EXPECT_EQ(gaps[0].outlines.lines, 0u);
    EXPECT_EQ(gaps[0].pieces, 20u);
    EXPECT_EQ(gaps[0].slender, 0u);
    EXPECT_NEAR(gaps[0].widest_joint_mm, kJoint_mm, 1e-9);
}

TEST(AcrossGaps, OffsetIsMeasuredAndPlaced) {
    Stacks s(0.9);
    s.laying.pieces[2 * 5 + 1] = block(140, 5 * kPitch_mm + 1.5);  // one square of the right stack, sixth row
    const AcrossGap gap = across_gaps(s.layout, s.laying).at(0);
    EXPECT_EQ(gap.rows.lines, 9u);
    EXPECT_EQ(gap.rows.meet, 7u);  // half a joint is 1 mm; the two joints at that square are 1.2 off
    EXPECT_NEAR(gap.rows.worst_mm, 1.2, 1e-9);
    EXPECT_NEAR(gap.rows.worst_at.x, 100, 1e-9);
    EXPECT_EQ(gap.rows.worst_in, "whole");
    EXPECT_NE(in_words(gap, Units::metric).find("7 of 9 rows"), std::string::npos);
}

// Rows 20 degrees off level: carried straight on they rise by 40 x tan 20 = 14.6 mm over the gap.
TEST(AcrossGaps, SlantingRowsAreCarriedAlongTheirSlope) {
    const double rise = 40 * std::tan(glm::radians(20.0));
    const auto meet = [&](double higher_mm) {
        Stacks s(higher_mm);
        for (Piece& piece : s.laying.pieces)
            piece.along = {std::cos(glm::radians(20.0)), std::sin(glm::radians(20.0))};
        return across_gaps(s.layout, s.laying).at(0).rows;
    };
    // Lines are taken 1 mm inside each edge, so two more millimetres of slope lie between them.
    const double inside = 2 * std::tan(glm::radians(20.0));
    const CarriedOn good = meet(rise + inside - kPitch_mm);
    EXPECT_GE(good.lines, 8u);
    EXPECT_EQ(good.meet, good.lines);
    EXPECT_NEAR(good.worst_mm, 0, 1e-6);
    EXPECT_EQ(meet(rise + inside - kPitch_mm + 4).meet, 0u);
}

TEST(AcrossGaps, OutlinesAreLinesOfTheirOwn) {
    Stacks s(0);
    Field lower = s.layout.fields[0];
    lower.name = "lower";
    const double y = 5 * kPitch_mm - kJoint_mm / 2;
    lower.outline = {.points_mm = {{0, 0}, {240, 0}, {240, y}, {0, y}}, .closed = true};
    s.layout.fields.insert(s.layout.fields.begin(), lower);
    for (std::size_t i = 0; i < s.laying.pieces.size(); ++i) s.laying.pieces[i].field = i / 2 < 5 ? 0 : 1;
    const AcrossGap gap = across_gaps(s.layout, s.laying).at(0);
    EXPECT_EQ(gap.outlines.lines, 1u);
    EXPECT_EQ(gap.outlines.meet, 1u);
    EXPECT_EQ(gap.rows.lines, 8u);
}

// Straight rows of a laid work, sawn at no matter what gap, meet wherever they go on.
TEST(AcrossGaps, StraightRowsOfALaidWorkMeet) {
    Layout layout = sample_layout(Opus::regulatum, 12, 12, 1.6);
    layout.fields[0].angle_deg = 15;
    layout.panel.divided = Division{{301}, 37, {"west", "east"}, {}};
    const AcrossGap gap = across_gaps(layout, lay(layout)).at(0);
    EXPECT_GT(gap.rows.lines, 20u);
    EXPECT_GE(static_cast<double>(gap.rows.meet), 0.9 * static_cast<double>(gap.rows.lines));
}

TEST(AcrossGaps, NoneInOnePiece) {
    Stacks s(0);
    s.layout.panel.divided.reset();
    EXPECT_TRUE(across_gaps(s.layout, s.laying).empty());
}

}  // namespace
}  // namespace rakelight
