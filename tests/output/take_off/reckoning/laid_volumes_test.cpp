// Pieces, grout and bed are measured in three different ways; together they have to fill the box that the
// panel is.
#include "output/take_off/reckoning/laid_volumes.h"
#include "scene/model/layout.h"

#include <gtest/gtest.h>

#include <cmath>
#include <tuple>

#include "scene/forms/forms.h"
#include "scene/model/levels.h"
#include "tests/support/take_off_samples.h"

namespace rakelight {
namespace {

// Of pieces and stones, the part below the joints' surface.
double pieces_mm3(const LaidSample& s) {
    double sum = 0;
    const double level = s.volumes.fields[0].surface_mm;
    for (const Piece& piece : s.laying.pieces)
        sum += volume_below_mm3(form_piece(piece, s.layout.stock[piece.material]), level);
    for (const SetStone& stone : s.laying.stones)
        sum += volume_below_mm3(form_stone(stone, s.layout.stock[stone.material]), level);
    return sum;
}

struct Filled {
    double grout_mm3 = 0, bed_mm3 = 0, joint_mm2 = 0, ground_mm2 = 0;
};

Filled filled(const LaidSample& s) {
    Filled f;
    for (const FieldFilling& field : s.volumes.fields) {
        f.grout_mm3 += field.grout_mm3;
        f.bed_mm3 += field.bed_mm3;
        f.joint_mm2 += field.joint_mm2;
        f.ground_mm2 += field.ground_mm2;
    }
    return f;
}

TEST(LaidVolumes, PiecesJointsAndBedFillTheBox) {
    for (const double rise : {0.0, 1.0 / 3, 0.5}) {
        const LaidSample s = laid_sample(level_grid(12, 2, 280, 210), rise);
        const Filled f = filled(s);
        const double box = 280 * 210 * s.volumes.fields[0].surface_mm;
        EXPECT_NEAR(pieces_mm3(s) + f.grout_mm3 + f.bed_mm3, box, 0.005 * box) << rise;
        EXPECT_NEAR(f.ground_mm2, 280 * 210, 1);
        // Level faces 1 mm above it, but for what the wet finger leaves along the sides.
        EXPECT_NEAR(s.volumes.fields[0].surface_mm, face_plane_mm(s.layout) - 1, 0.2);
    }
}

// As the hand leaves it: tilted, uneven, two fields and a stone between them.
TEST(LaidVolumes, AnUnevenPanelFillsItsBoxToo) {
    Layout layout = two_grouts();
    for (Field& field : layout.fields) {
        field.tilt_deg = 2;
        field.lippage_mm = 0.4;
        field.setting.form = PieceForm::nipped;
    }
    layout.stones = {slag_stone()};
    const LaidSample s = laid_sample(layout);
    ASSERT_EQ(s.volumes.stone_field, (std::vector<std::uint32_t>{0}));
    const Filled f = filled(s);
    const double box = 200 * 120 * s.volumes.fields[0].surface_mm;
    EXPECT_NEAR(pieces_mm3(s) + f.grout_mm3 + f.bed_mm3, box, 0.005 * box);
    EXPECT_NEAR(f.ground_mm2 + area_mm2(s.laying.stones[0].footprint_mm), 200 * 120, 1);
}

// Squares of side l with joints j: the joints' share is 1 - (l / (l + j))^2; 1e6 / (l + j)^2 pieces a m2.
TEST(LaidVolumes, JointSharesAndCountsAreThoseOfTheLattice) {
    for (const auto& [side, joint, percent] :
         {std::tuple{20.0, 2.0, 17}, {15.0, 2.0, 22}, {10.0, 1.5, 24}, {10.0, 3.0, 41}, {5.0, 1.0, 31}}) {
        const double pitch = side + joint;
        // The outermost pieces end flush, so that n pieces and n - 1 joints make the width; many, or the
        // joints that are missing at the edge would show.
        const int n = side > 6 ? 24 : 40;
        const LaidSample s = laid_sample(level_grid(side, joint, n * pitch - joint, n * pitch - joint));
        const Filled f = filled(s);
        const double share = 1 - std::pow(side / pitch, 2);
        EXPECT_NEAR(100 * share, percent, 0.6) << side;
        EXPECT_NEAR(f.joint_mm2 / f.ground_mm2, share, 0.025) << side << " " << joint;
        EXPECT_EQ(s.laying.pieces.size(), static_cast<std::size_t>(n) * static_cast<std::size_t>(n));
    }
}

// 3 mm of neat epoxy: 3 L/m2 at 1.10 to 1.15 g/cm3, 3.4 kg/m2 (common practice).
TEST(LaidVolumes, BedOfNeatEpoxy) {
    Layout layout = level_grid(24, 1, 300, 250);
    layout.panel.substrate.bed_mm = 3;
    const LaidSample s = laid_sample(layout, 0);
    const double kg_per_m2 = s.volumes.fields[0].bed_mm3 / (300 * 250) * 1.13;
    EXPECT_NEAR(kg_per_m2, 3.4, 0.05);
    EXPECT_NEAR(s.volumes.fields[0].bed_under_mm, 3, 1e-6);
}

TEST(LaidVolumes, OpenJointsHoldBedInstead) {
    Layout layout = level_grid(12, 2, 150, 110);
    layout.fields[0].grout.reset();
    const LaidSample s = laid_sample(layout);
    EXPECT_EQ(s.volumes.fields[0].grout_mm3, 0);
    EXPECT_GT(s.volumes.fields[0].bed_mm3, 150 * 110 * layout.panel.substrate.bed_mm);
}

TEST(GroutRegions, TheFirstListedOwnsTheJointToItsFarSide) {
    const LaidSample s = laid_sample(two_grouts());
    const Box left = bounds(s.regions[0]), right = bounds(s.regions[1]);
    // The joint of 2 mm lies astride x = 100.
    EXPECT_NEAR(left.high.x, 101, 0.02);
    EXPECT_NEAR(right.low.x, 101, 0.02);
    EXPECT_LT(area_mm2(intersect(s.regions[0], s.regions[1])), 0.01);
    EXPECT_NEAR(area_mm2(s.regions[0]) + area_mm2(s.regions[1]), 200 * 120, 0.5);
}

}  // namespace
}  // namespace rakelight
