// Eyes against circles and hairpins, whose middles and radii are known.
#include "scene/opus/eyes.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "scene/geometry/polygon.h"
#include "tests/support/laying_samples.h"

namespace rakelight {
namespace {

constexpr double kRow_mm = 10;
const Region kGround{{{{0, 0}, {200, 0}, {200, 200}, {0, 200}}}};

Row ring(const glm::dvec2& middle, double radius_mm) {
    Row row{{}, true};
    for (int k = 0; k < 60; ++k)
        row.line_mm.push_back(middle + radius_mm * glm::dvec2(std::cos(k * std::numbers::pi / 30),
                                                              std::sin(k * std::numbers::pi / 30)));
    return row;
}

TEST(Eyes, ARingOfHalfARowIsOneRoundPieceAsFarAsTheRowReached) {
    const auto eyes = eyes_of({ring({90, 110}, 5)}, kGround, kRow_mm);
    ASSERT_EQ(eyes.size(), 1u);
    EXPECT_NEAR(glm::distance(eyes[0].middle_mm, {90, 110}), 0, 0.1 * kRow_mm);
    EXPECT_NEAR(eyes[0].radius_mm, 5 + kRow_mm / 2, 0.1 * kRow_mm);
}

TEST(Eyes, AWiderRingStaysAndTheEyeIsWhatItLeaves) {
    const auto eyes = eyes_of({ring({90, 110}, 11)}, kGround, kRow_mm);
    ASSERT_EQ(eyes.size(), 1u);
    EXPECT_NEAR(glm::distance(eyes[0].middle_mm, {90, 110}), 0, 0.1 * kRow_mm);
    EXPECT_NEAR(eyes[0].radius_mm, 11 - kRow_mm / 2, 0.1 * kRow_mm);
}

TEST(Eyes, AHairpinHasOneInItsBend) {
    Row row;
    for (int k = 0; k <= 20; ++k) row.line_mm.emplace_back(20 + 5 * k, 94);
    for (int k = 1; k < 30; ++k)
        row.line_mm.emplace_back(120 + 6 * std::sin(k * std::numbers::pi / 30),
                                 100 - 6 * std::cos(k * std::numbers::pi / 30));
    for (int k = 20; k >= 0; --k) row.line_mm.emplace_back(20 + 5 * k, 106);
    const auto eyes = eyes_of({row}, kGround, kRow_mm);
    ASSERT_EQ(eyes.size(), 1u);
    EXPECT_NEAR(glm::distance(eyes[0].middle_mm, {120, 100}), 0, 0.15 * kRow_mm);
    EXPECT_GT(std::abs(eyes[0].along.y), 0.99);  // across its legs
}

// A row along a leaf's end: legs that open by 50 degrees beyond an arc of a row's radius.
Row leaf_end() {
    constexpr double kHalf = 25 * std::numbers::pi / 180;
    Row row;
    const glm::dvec2 arc(60, 100);
    const auto leg = [&](double side) {
        const glm::dvec2 from = arc + 10.0 * glm::dvec2(-std::sin(kHalf), side * std::cos(kHalf));
        return [=](double by) { return from + by * glm::dvec2(std::cos(kHalf), side * std::sin(kHalf)); };
    };
    for (int k = 40; k > 0; --k) row.line_mm.push_back(leg(1)(2.0 * k));
    for (int k = 0; k <= 40; ++k) {
        const double turn = std::numbers::pi / 2 + kHalf + (std::numbers::pi - 2 * kHalf) * k / 40;
        row.line_mm.push_back(arc + 10.0 * glm::dvec2(std::cos(turn), std::sin(turn)));
    }
    for (int k = 1; k <= 40; ++k) row.line_mm.push_back(leg(-1)(2.0 * k));
    return row;
}

TEST(Eyes, ALeafsEndHasADropClearOfItsLegs) {
    const Row inner{{{75, 100}, {140, 100}}, false};
    const auto eyes = eyes_of({leaf_end(), inner}, kGround, kRow_mm);
    ASSERT_EQ(eyes.size(), 1u);
    EXPECT_TRUE(eyes[0].drop);
    EXPECT_NEAR(eyes[0].middle_mm.y, 100, 0.15 * kRow_mm);
    double clear = 1e9;
    for (const auto& p : leaf_end().line_mm) clear = std::min(clear, glm::distance(p, eyes[0].middle_mm));
    EXPECT_NEAR(clear, eyes[0].radius_mm + kRow_mm / 2, 0.1 * kRow_mm);
    // Where a row lies between the legs and runs on past the place, there is none.
    const Row through{{{20, 140}, {eyes[0].middle_mm.x, 100}, {140, 60}}, false};
    EXPECT_TRUE(eyes_of({leaf_end(), through}, kGround, kRow_mm).empty());
}

TEST(Eyes, ALeafEndsInADropAndNoNeedle) {
    // The opus sampler's leaf; its middle row had begun in a needle, nipped to a gap of grout.
    Layout layout = sample_layout(Opus::vermiculatum, 5.6, 4.6, 0.5);
    layout.panel.width_mm = layout.panel.height_mm = 140;
    layout.fields[0].outline = smooth_stroke(
        {{116, 104}, {84, 99}, {52, 86}, {32, 63}, {35, 37}, {58, 24}, {84, 30}, {98, 52}, {104, 78}}, true);
    layout.fields[0].guides.clear();
    const Laying laying = lay(layout);
    int drops = 0;
    for (const Piece& piece : laying.pieces) {
        if (!contains(piece.outline_mm, {60.6, 53.3})) continue;
        ++drops;
        EXPECT_GT(area_mm2(piece.outline_mm), 0.98 * area_mm2(convex_hull(piece.outline_mm)));
        EXPECT_LT(area_mm2(piece.outline_mm), 1.6 * 5.6 * 4.6);
    }
    EXPECT_EQ(drops, 1);
}

TEST(Eyes, NoneInAWideRingNorBesideAnEdgeNorTwoInOnePlace) {
    EXPECT_TRUE(eyes_of({ring({90, 110}, 20)}, kGround, kRow_mm).empty());
    EXPECT_TRUE(eyes_of({ring({12, 110}, 5)}, kGround, kRow_mm).empty());
    EXPECT_EQ(eyes_of({ring({90, 110}, 5), ring({92, 110}, 11)}, kGround, kRow_mm).size(), 1u);
}

TEST(Eyes, RingsOfARoundFigureCloseOnOneRoundPiece) {
    // Six needles had met in the middle. An outline is round where 4 pi area is the perimeter squared.
    Layout layout = sample_layout(Opus::vermiculatum, 6, 5.4, 0.7);
    layout.panel.width_mm = layout.panel.height_mm = 60;
    layout.fields[0].outline = {ring({30, 30}, 26).line_mm, true, true, {}};
    layout.fields[0].guides.clear();
    const Laying laying = lay(layout);
    int middles = 0;
    for (const Piece& piece : laying.pieces) {
        if (!contains(piece.outline_mm, {30, 30})) continue;
        ++middles;
        double round = 0;
        for (const auto& [a, b] : edges(piece.outline_mm)) round += glm::distance(a, b);
        EXPECT_GT(4 * std::numbers::pi * area_mm2(piece.outline_mm), 0.95 * round * round);
    }
    EXPECT_EQ(middles, 1);
}

}  // namespace
}  // namespace rakelight
