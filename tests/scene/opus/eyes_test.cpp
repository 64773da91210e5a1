// Eyes against circles and hairpins, whose middles and radii are known.
#include "scene/opus/eyes.h"

#include <gtest/gtest.h>

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
