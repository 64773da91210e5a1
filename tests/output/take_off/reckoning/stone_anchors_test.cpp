#include "output/take_off/reckoning/stone_anchors.h"

#include <gtest/gtest.h>

#include "scene/model/layout.h"
#include "tests/support/take_off_samples.h"

namespace rakelight {
namespace {

PlacedStone stone(std::uint32_t material, double x, const glm::dvec3& size, double proud) {
    PlacedStone s;
    s.material = material;
    s.at_mm = {x, 100};
    s.size_mm = size;
    s.proud_mm = proud;
    s.form = "pebble";
    s.seed = static_cast<std::uint64_t>(x);
    return s;
}

// Over 100 g and less than half sunk, over 25 mm proud on less bed, or a long lever (common practice, no
// published source). A pebble is nearly an ellipsoid: pi / 6 of its box.
TEST(StoneAnchors, FlagsByMassReliefAndLeverage) {
    Layout layout = level_grid(14, 2, 400, 200);
    layout.stones = {stone(kSlate, 60, {24, 18, 9}, 3), stone(kSlate, 140, {70, 60, 24}, 14),
                     stone(kPumice, 230, {50, 44, 40}, 33), stone(kSlate, 330, {22, 18, 9}, 3)};
    const LaidSample s = laid_sample(layout);
    const auto anchors = stone_anchors(s.layout, s.laying, s.volumes);
    ASSERT_EQ(anchors.size(), 2u);
    EXPECT_EQ(anchors[0].id, "stone#2");
    EXPECT_EQ(anchors[0].number, 1u);
    EXPECT_NEAR(anchors[0].mass_g, 3.14159 / 6 * 70 * 60 * 24 * 2.75 / 1000, 0.3 * anchors[0].mass_g);
    EXPECT_NE(anchors[0].reasons[0].find("over 100 g"), std::string::npos);
    EXPECT_NE(anchors[0].how.find("pins"), std::string::npos);
    EXPECT_EQ(anchors[1].id, "stone#3");
    EXPECT_EQ(anchors[1].reasons.size(), 1u);  // proud; but light
    EXPECT_NE(anchors[1].how.find("pores"), std::string::npos);
}

// Glue holds what is light, and what sits deep: on a thick bed every weight is far off the board, which is no
// lever. The same stone set half as deep wants an anchor.
TEST(StoneAnchors, NeitherAPebbleNorWhatSitsDeepIsFlagged) {
    Layout layout = level_grid(14, 2, 400, 200);
    layout.panel.substrate.bed_mm = 14;
    layout.stones = {stone(kSlate, 60, {16, 12, 9}, 3), stone(kSlate, 140, {70, 60, 24}, 6),
                     stone(kSlate, 300, {70, 60, 24}, 17)};
    const LaidSample s = laid_sample(layout);
    const auto anchors = stone_anchors(s.layout, s.laying, s.volumes);
    ASSERT_EQ(anchors.size(), 1u);
    EXPECT_EQ(anchors[0].id, "stone#3");
    EXPECT_LT(anchors[0].deep_mm, 12);
    EXPECT_NEAR(anchors[0].tall_mm, 24, 1e-9);
}

TEST(StoneAnchors, AKilogramIsBolted) {
    Layout layout = level_grid(14, 2, 400, 240);
    layout.stones = {stone(kSlate, 200, {150, 120, 60}, 40)};
    const LaidSample s = laid_sample(layout);
    const auto anchors = stone_anchors(s.layout, s.laying, s.volumes);
    ASSERT_EQ(anchors.size(), 1u);
    EXPECT_GT(anchors[0].mass_g, kBoltFrom_g);
    EXPECT_NE(anchors[0].how.find("bolt"), std::string::npos);
}

}  // namespace
}  // namespace rakelight
