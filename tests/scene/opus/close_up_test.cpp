#include "scene/opus/close_up.h"

#include <gtest/gtest.h>

#include <cmath>

#include "scene/geometry/polygon.h"

namespace rakelight {
namespace {

// A ground of 40 by 30 mm with a round stone of 8 mm in its lower right corner cut out, and its joint.
Region beside_a_stone() {
    Ring stone;
    for (int i = 0; i < 64; ++i)
        stone.emplace_back(40 + 9 * std::cos(i * 0.0981747704), 9 * std::sin(i * 0.0981747704));
    return subtract({{{{0, 0}, {40, 0}, {40, 30}, {0, 30}}}}, region_of(stone));
}

CuttingRules rules_of(double side_mm) {
    CuttingRules rules;
    rules.joint_mm = 1;
    rules.nominal_mm2 = side_mm * side_mm;
    rules.least_width_mm = 2;
    rules.least_edge_mm = 1;
    rules.most_corners = 12;
    rules.crowded_edge = 1;
    return rules;
}

Piece square_piece(double left, double bottom, double right, double top) {
    Piece piece;
    piece.outline_mm = {{left, bottom}, {right, bottom}, {right, top}, {left, top}};
    return piece;
}

double area_of(const std::vector<Piece>& pieces) {
    double sum = 0;
    for (const Piece& piece : pieces) sum += area_mm2(piece.outline_mm);
    return sum;
}

TEST(CloseUp, APieceReachesIntoTheGapBesideAStone) {
    // Left of the stone and above it, each short of it by several joints.
    std::vector<Piece> pieces{square_piece(0.5, 0.5, 26, 14.5), square_piece(0.5, 15.5, 39.5, 29.5)};
    const Region ground = beside_a_stone();
    close_up(pieces, ground, rules_of(20), 1200, 1);
    EXPECT_GT(area_of(pieces), 0.9 * area_mm2(grow(ground, -0.5)));
    // No two nearer than a joint, but for what the hand takes.
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        EXPECT_TRUE(subtract({{pieces[i].outline_mm}}, grow(ground, 0.05)).empty());
        for (std::size_t j = 0; j < i; ++j)
            EXPECT_LT(
                area_mm2(intersect(grow({{pieces[i].outline_mm}}, 0.3), grow({{pieces[j].outline_mm}}, 0.3))),
                0.05);
    }
}

TEST(CloseUp, AGapAsLargeAsAPieceIsFilled) {
    std::vector<Piece> pieces{square_piece(0.5, 15.5, 39.5, 29.5)};
    close_up(pieces, {{{{0, 0}, {40, 0}, {40, 30}, {0, 30}}}}, rules_of(16), 560, 1);
    EXPECT_EQ(pieces.size(), 2u);
}

TEST(CloseUp, AGapInTheFieldIsSeenWhereItIsToldOf) {
    // Four pieces round a gap of 12 by 12 mm, far from every edge.
    const Region ground{{{{0, 0}, {140, 0}, {140, 140}, {0, 140}}}};
    const std::vector<Piece> round{square_piece(44, 44, 76, 63.5), square_piece(44, 76.5, 76, 96),
                                   square_piece(44, 64.5, 63.5, 75.5), square_piece(76.5, 64.5, 96, 75.5)};
    auto pieces = round;
    close_up(pieces, ground, rules_of(13), 340, 1);
    EXPECT_EQ(pieces.size(), 4u);
    EXPECT_NEAR(area_of(pieces), area_of(round), 1e-9);
    const std::vector<glm::dvec2> places{{70, 70}};
    close_up(pieces, ground, rules_of(13), 640, 1, places);
    EXPECT_GT(area_of(pieces), area_of(round) + 100);
}

TEST(CloseUp, WhatIsWholeStays) {
    std::vector<Piece> pieces{square_piece(0.5, 0.5, 19.5, 29.5), square_piece(20.5, 0.5, 39.5, 29.5)};
    const auto before = pieces;
    close_up(pieces, {{{{0, 0}, {40, 0}, {40, 30}, {0, 30}}}}, rules_of(20), 1200, 1);
    ASSERT_EQ(pieces.size(), 2u);
    for (std::size_t i = 0; i < 2; ++i)
        EXPECT_NEAR(area_mm2(pieces[i].outline_mm), area_mm2(before[i].outline_mm), 0.02 * 19 * 29);
}

}  // namespace
}  // namespace rakelight
