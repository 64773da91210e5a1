#include "output/take_off/reckoning/weighing.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <string>

#include "scene/forms/forms.h"
#include "scene/geometry/solid.h"
#include "scene/model/layout.h"
#include "tests/support/take_off_samples.h"

namespace rakelight {
namespace {

Layout on_board(Layout layout, double board_mm) {
    Material board = sample_material("board", Kind::cement, static_cast<float>(board_mm), 1.4f);
    layout.panel.substrate.material = add_material(layout.stock, std::move(board));
    layout.panel.substrate.thickness_mm = board_mm;
    return layout;
}

// Boxes all of them: the panel is 20 by 15 squares of 20 mm with joints of 1.7, flush at its edges. Under and
// between them 2 mm of epoxy that is squeezed up a third of the pieces' 6 mm, and grout from there to 1 mm
// below the faces. What sawing takes off arrises leaves 1 %.
TEST(Weighing, FusedGlassOnAThinBoardIsItsBoxes) {
    const double wide_mm = 20 * 21.7 - 1.7, tall_mm = 15 * 21.7 - 1.7;
    Layout layout = on_board(level_grid(20, 1.7, wide_mm, tall_mm), 6);
    layout.panel.substrate.bed_mm = 2;
    const LaidSample s = laid_sample(layout);
    const Weighing w = weigh(s.layout, s.laying, s.volumes, {});
    const double face_mm2 = wide_mm * tall_mm, glass_mm2 = 20 * 15 * 20 * 20.0,
                 joints_mm2 = face_mm2 - glass_mm2;
    const double expected_kg = (glass_mm2 * 6 * 2.5 + (face_mm2 * 2 + joints_mm2 * 6 / 3) * 1.1 +
                                joints_mm2 * (6 - 6 / 3 - 1) * 1.9 + face_mm2 * 6 * 1.4) /
                               1e6;
    EXPECT_NEAR(w.likely_kg / expected_kg, 1, 0.01);
    EXPECT_NEAR(w.kg_per_m2(), w.likely_kg / (face_mm2 / 1e6), 1e-9);
}

// Where that bed lies: 2 mm under the pieces, their middle 1 mm off the board, and 4 mm in the joints.
TEST(Weighing, CentreOfGravityOfTheBedIsThatOfItsBoxes) {
    const double wide_mm = 20 * 21.7 - 1.7, tall_mm = 15 * 21.7 - 1.7;
    Layout layout = on_board(level_grid(20, 1.7, wide_mm, tall_mm), 6);
    layout.panel.substrate.bed_mm = 2;
    const LaidSample s = laid_sample(layout);
    const double glass_mm2 = 20 * 15 * 20 * 20.0, joints_mm2 = wide_mm * tall_mm - glass_mm2;
    const double expected_mm = (glass_mm2 * 2 * 1 + joints_mm2 * 4 * 2) / (glass_mm2 * 2 + joints_mm2 * 4);
    const Weighing w = weigh(s.layout, s.laying, s.volumes, {});
    const auto bed = std::ranges::find(w.parts, "bed", &WeightPart::name);
    ASSERT_NE(bed, w.parts.end());
    EXPECT_NEAR(bed->off_board_mm, expected_mm, 0.03);
}

// Round a pebble the bed is its plan's cylinder less a cap of an ellipsoid; against a count over a lattice of
// heights, each slice by the volume on either side of it.
TEST(Weighing, CentreOfGravityOfTheBedUnderAStone) {
    Layout layout = level_grid(14, 2, 200, 160);
    PlacedStone stone;
    stone.material = kSlate;
    stone.at_mm = {100, 80};
    stone.size_mm = {120, 100, 24};
    stone.proud_mm = 10;
    stone.form = "pebble";
    layout.stones = {stone};
    const LaidSample s = laid_sample(layout);
    ASSERT_EQ(s.laying.stones.size(), 1u);
    const FieldFilling& field = s.volumes.fields[0];
    EXPECT_GT(field.bed_centre_mm, 0);
    EXPECT_LT(field.bed_centre_mm, field.bed_mm);
    double mm3 = field.joint_mm2 * field.bed_mm, mm4 = mm3 * field.bed_mm / 2;
    const auto add = [&](const Mesh& mesh, double plan_mm2, double level_mm) {
        constexpr int kSlices = 400;
        for (int k = 0; k < kSlices; ++k) {
            const double low = level_mm * k / kSlices, high = level_mm * (k + 1) / kSlices;
            const double part =
                plan_mm2 * (high - low) - (volume_below_mm3(mesh, high) - volume_below_mm3(mesh, low));
            mm3 += part;
            mm4 += part * (low + high) / 2;
        }
    };
    const SetStone& set = s.laying.stones[0];
    add(form_stone(set, s.layout.stock[set.material]), area_mm2(set.footprint_mm), field.bed_mm);
    for (const Piece& piece : s.laying.pieces) {
        const double back = piece.top_mm - piece.thickness_mm;
        add(form_piece(piece, s.layout.stock[piece.material]), area_mm2(piece.outline_mm),
            back + kBedRise * piece.thickness_mm);
    }
    EXPECT_NEAR(field.bed_mm3, mm3, 0.005 * mm3);
    EXPECT_NEAR(field.bed_centre_mm, mm4 / mm3, 0.02);
}

// The same of a mix, all 10 mm thick, 32 by 25 pieces: half slate, 35 % glass and the rest pumice, to the
// piece; and a pine frame 20 mm wide round it, 6 mm proud of the faces, down to the back of the board.
TEST(Weighing, AMixedPanelInAFrameIsItsBoxes) {
    const double wide_mm = 32 * 20 - 2.1, tall_mm = 25 * 20 - 2.1;
    Layout layout = on_board(level_grid(17.9, 2.1, wide_mm, tall_mm), 12);
    for (Material& m : layout.stock)
        if (m.name != "board") m.thickness_mm = 10;
    layout.stock[1].density_g_per_cm3 = 2.65f;
    layout.stock[2].density_g_per_cm3 = 0.8f;
    layout.fields[0].mix = {{kSlate, 0.5}, {kGlass, 0.35}, {kPumice, 0.15}};
    layout.panel.substrate.bed_mm = 3;
    const std::uint32_t pine = add_material(layout.stock, sample_material("pine", Kind::timber, 20, 0.5f));
    layout.panel.frame = Frame{pine, 20, 6, 0};
    HangingWishes wishes;
    wishes.struts = 0;
    const LaidSample s = laid_sample(layout);
    const Weighing w = weigh(s.layout, s.laying, s.volumes, wishes);
    const double piece_mm2 = 17.9 * 17.9, face_mm2 = wide_mm * tall_mm,
                 joints_mm2 = face_mm2 - 800 * piece_mm2;
    const std::map<std::string, double> expected_kg{
        {"stone", 400 * piece_mm2 * 10 * 2.65 / 1e6},
        {"glass", 280 * piece_mm2 * 10 * 2.5 / 1e6},
        {"pumice and lava", 120 * piece_mm2 * 10 * 0.8 / 1e6},
        {"bed", (face_mm2 * 3 + joints_mm2 * 10 / 3) * 1.1 / 1e6},
        {"grout", joints_mm2 * (10 - 10 / 3. - 1) * 1.9 / 1e6},
        {"board", face_mm2 * 12 * 1.4 / 1e6},
        {"frame", ((wide_mm + 40) * (tall_mm + 40) - face_mm2) * (3 + 10 + 6 + 12) * 0.5 / 1e6}};
    ASSERT_EQ(w.parts.size(), expected_kg.size());
    double sum_kg = 0;
    for (const WeightPart& part : w.parts) {
        // Pumice crumbles at its edges, and grout takes their place.
        const bool crumbles = part.name == "pumice and lava" || part.name == "grout";
        EXPECT_NEAR(part.kg / expected_kg.at(part.name), 1, crumbles ? 0.06 : 0.025) << part.name;
        sum_kg += expected_kg.at(part.name);
    }
    EXPECT_NEAR(w.likely_kg / sum_kg, 1, 0.01);
    EXPECT_LE(w.low_kg, 0.85 * w.likely_kg + 1e-9);
    EXPECT_GE(w.high_kg, 1.15 * w.likely_kg - 1e-9);
    EXPECT_NEAR(w.design_kg(), 1.1 * w.high_kg, 1e-9);
}

// The board alone: a box of known density and place.
TEST(Weighing, BoardIsItsBox) {
    const LaidSample s = laid_sample(on_board(level_grid(20, 2, 218, 174), 10));
    HangingWishes wishes;
    wishes.struts = 0;
    const Weighing w = weigh(s.layout, s.laying, s.volumes, wishes);
    double kg = 0, moment = 0;
    for (const WeightPart& part : w.parts) {
        kg += part.kg;
        moment += part.kg * part.off_board_mm;
        if (part.name != "board") continue;
        EXPECT_NEAR(part.kg, 0.218 * 0.174 * 0.010 * 1400, 1e-6);
        EXPECT_NEAR(part.off_board_mm, -5, 1e-9);
        EXPECT_NEAR(part.tolerance, 0.15, 1e-12);
    }
    EXPECT_NEAR(kg, w.likely_kg, 1e-9);
    EXPECT_NEAR(w.off_wall_mm, wishes.gap_mm + 10 + moment / kg, 1e-9);
}

// Weight that a struts' length, section and density make; one for every 400 mm above 3 sq ft (0.28 m2).
TEST(Weighing, StrutsAsTheWidthAsks) {
    Layout layout = level_grid(20, 2, 600, 450);
    EXPECT_EQ(strut_count(layout.panel, {}), 0);
    layout.panel.width_mm = 700;
    EXPECT_EQ(strut_count(layout.panel, {}), 1);
    layout.panel.width_mm = 1201;
    EXPECT_EQ(strut_count(layout.panel, {}), 3);
    HangingWishes wishes;
    wishes.struts = 2;
    EXPECT_EQ(strut_count(layout.panel, wishes), 2);
}

TEST(Weighing, BubblesAreKnownLeastWell) {
    EXPECT_NEAR(density_tolerance(sample_material("g", Kind::glass, 6, 2.5f)), 0.03, 1e-12);
    EXPECT_NEAR(density_tolerance(sample_material("s", Kind::stone, 6, 2.7f)), 0.08, 1e-12);
    EXPECT_NEAR(density_tolerance(sample_material("p", Kind::stone, 6, 0.6f)), 0.30, 1e-12);
}

}  // namespace
}  // namespace rakelight
