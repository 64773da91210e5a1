#include "output/take_off/reckoning/weighing.h"

#include <gtest/gtest.h>

#include "tests/support/takeoff_samples.h"

namespace rakelight {
namespace {

Layout on_board(Layout layout, double board_mm) {
    Material board = sample_material("board", Kind::cement, static_cast<float>(board_mm), 1.4f);
    layout.stock.push_back(board);
    layout.substrate.material = "board";
    layout.substrate.thickness_mm = board_mm;
    return layout;
}

// 6 mm fused glass on 85 % of the face, 2 mm of epoxy, a board of 6 mm: about 25 kg/m2 (common practice).
TEST(Weighing, FusedGlassOnAThinBoard) {
    Layout layout = on_board(level_grid(20, 1.7, 20 * 21.7 - 1.7, 15 * 21.7 - 1.7), 6);
    layout.substrate.bed_mm = 2;
    const LaidSample s = laid_sample(layout);
    const Weighing w = weigh(s.layout, s.laying, s.volumes, {});
    EXPECT_NEAR(w.kg_per_m2(), 25, 2.5);
}

// Half stone, a third glass, the rest pumice, a board of 12 mm, a pine frame: 40 to 52 kg/m2 (common
// practice); so 65 lb of it are half to nine tenths of a square metre.
TEST(Weighing, MixedHeavyPanel) {
    Layout layout = on_board(level_grid(17.9, 2.1, 638, 498), 12);
    layout.stock[1].thickness_mm = 10;
    layout.stock[1].density_g_per_cm3 = 2.65f;
    layout.stock[2].thickness_mm = 10;
    layout.stock[2].density_g_per_cm3 = 0.8f;
    layout.fields[0].mix = {{"slate", 0.5}, {"glass", 0.35}, {"pumice", 0.15}};
    layout.substrate.bed_mm = 3;
    layout.stock.push_back(sample_material("pine", Kind::timber, 20, 0.5f));
    layout.frame = Frame{"pine", 20, 6, 0};
    const LaidSample s = laid_sample(layout);
    const Weighing w = weigh(s.layout, s.laying, s.volumes, {});
    EXPECT_GT(w.kg_per_m2(), 40);
    EXPECT_LT(w.kg_per_m2(), 52);
    EXPECT_GT(29.48 / w.kg_per_m2(), 0.5);
    EXPECT_LT(29.48 / w.kg_per_m2(), 0.9);
    EXPECT_LE(w.low_kg, 0.85 * w.likely_kg + 1e-9);
    EXPECT_GE(w.high_kg, 1.15 * w.likely_kg - 1e-9);
    EXPECT_NEAR(w.design_kg(), 1.1 * w.high_kg, 1e-9);
}

// Thick stone in mortar with boulders of slag: 60 to 110 kg/m2 (common practice).
TEST(Weighing, ReliefWithBoulders) {
    Layout layout = on_board(level_grid(25, 3, 417, 333), 12);
    layout.stock[1].thickness_mm = 16;
    layout.fields[0].mix = {{"slate", 1}};
    layout.fields[0].bed = "other";
    layout.substrate.bed_mm = 4;
    for (int i = 0; i < 6; ++i) {
        PlacedStone boulder;
        boulder.material = "slag";
        boulder.at_mm = {70 + 130 * (i % 3), 85 + 160 * (i / 3)};
        boulder.size_mm = {80, 70, 55};
        boulder.proud_mm = 40;
        boulder.seed = static_cast<std::uint64_t>(i + 1);
        layout.stones.push_back(boulder);
    }
    const LaidSample s = laid_sample(layout);
    const Weighing w = weigh(s.layout, s.laying, s.volumes, {});
    EXPECT_GT(w.kg_per_m2(), 60);
    EXPECT_LT(w.kg_per_m2(), 110);
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
    EXPECT_EQ(strut_count(layout, {}), 0);
    layout.width_mm = 700;
    EXPECT_EQ(strut_count(layout, {}), 1);
    layout.width_mm = 1201;
    EXPECT_EQ(strut_count(layout, {}), 3);
    HangingWishes wishes;
    wishes.struts = 2;
    EXPECT_EQ(strut_count(layout, wishes), 2);
}

TEST(Weighing, BubblesAreKnownLeastWell) {
    EXPECT_NEAR(density_tolerance(sample_material("g", Kind::glass, 6, 2.5f)), 0.03, 1e-12);
    EXPECT_NEAR(density_tolerance(sample_material("s", Kind::stone, 6, 2.7f)), 0.08, 1e-12);
    EXPECT_NEAR(density_tolerance(sample_material("p", Kind::stone, 6, 0.6f)), 0.30, 1e-12);
}

}  // namespace
}  // namespace rakelight
