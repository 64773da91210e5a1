// The lattice of a piece's numbers: decimal, and a fixed point of itself.
#include "scene/pieces/piece_numbers.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "materials/maths/hash.h"

namespace rakelight {
namespace {

Piece any_piece(std::uint64_t seed) {
    Rng rng(seed);
    Piece piece;
    for (int i = 0; i < 6; ++i) piece.outline_mm.emplace_back(rng.within(0, 3000), rng.within(0, 3000));
    piece.thickness_mm = rng.within(1, 20);
    piece.top_mm = rng.within(5, 40);
    piece.tilt_rad = {rng.within(-0.2, 0.2), rng.within(-0.2, 0.2)};
    const double turn = rng.within(-3.2, 3.2);
    piece.along = {std::cos(turn), std::sin(turn)};
    return piece;
}

TEST(PieceNumbers, SettlingAgainChangesNoBit) {
    for (std::uint64_t seed = 0; seed < 2000; ++seed) {
        Piece once = any_piece(seed);
        settle_numbers(once);
        Piece twice = once;
        settle_numbers(twice);
        EXPECT_EQ(once.outline_mm, twice.outline_mm);
        EXPECT_EQ(once.top_mm, twice.top_mm);
        EXPECT_EQ(once.thickness_mm, twice.thickness_mm);
        EXPECT_EQ(once.tilt_rad, twice.tilt_rad);
        EXPECT_EQ(once.along, twice.along);
    }
}

// Half a step of the lattice is the most that anything moves.
TEST(PieceNumbers, MovesNothingThatAHandCouldSee) {
    for (std::uint64_t seed = 0; seed < 200; ++seed) {
        const Piece before = any_piece(seed);
        Piece after = before;
        settle_numbers(after);
        for (std::size_t i = 0; i < before.outline_mm.size(); ++i)
            for (int axis = 0; axis < 2; ++axis)
                EXPECT_NEAR(after.outline_mm[i][axis], before.outline_mm[i][axis], 0.5001e-4);
        EXPECT_NEAR(glm::degrees(after.tilt_rad.x), glm::degrees(before.tilt_rad.x), 0.5001e-6);
        EXPECT_NEAR(glm::length(after.along), 1, 1e-15);
        EXPECT_NEAR(after.along.x * before.along.y, after.along.y * before.along.x, 1e-8);
    }
}

TEST(PieceNumbers, HaveShortDecimals) {
    EXPECT_EQ(fmt::format("{}", lattice_mm(2.5999999046325684)), "2.6");
    EXPECT_EQ(fmt::format("{}", lattice_mm(-0.00001)), "0");
    EXPECT_EQ(fmt::format("{}", lattice_mm(1234.56784999)), "1234.5678");
    EXPECT_EQ(rotation_deg({0, 1}), 90);
    EXPECT_EQ(rotation_deg({-1, 0}), 180);
}

}  // namespace
}  // namespace rakelight
