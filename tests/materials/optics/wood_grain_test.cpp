// The grain of timber leaves its mean colour alone, runs along the trunk, shows rings at its stated width
// across it, and is the same wherever it is asked for again.
#include "materials/optics/wood_grain.h"

#include <gtest/gtest.h>

#include <cmath>

#include "materials/maths/hash.h"

using namespace rakelight;

TEST(WoodGrain, RingToneHasMeanZeroAndDeviationOne) {
    double sum = 0, squares = 0;
    constexpr int kSteps = 100'000;
    for (int i = 0; i < kSteps; ++i) {
        const auto tone = static_cast<double>(ring_tone((static_cast<float>(i) + 0.5f) / kSteps));
        sum += tone;
        squares += tone * tone;
    }
    EXPECT_NEAR(sum / kSteps, 0, 1e-4);
    EXPECT_NEAR(squares / kSteps, 1, 1e-3);
}

TEST(WoodGrain, LeavesTheMeanColourAlone) {
    // L* of a reflectance is 116 R^(1/3) - 16 (CIE 15:2018). Greys of one hue differ by CIEDE2000 of the
    // difference of L* over S_L, which is 1 at L* 50 and more elsewhere (ISO/CIE 11664-6): L* bounds it.
    constexpr double kContrast = 0.18, kReflectance = 0.3;
    double factor = 0;
    constexpr int kBoards = 60, kPoints = 3000;
    for (int board = 0; board < kBoards; ++board) {
        Rng rng(hash_combine(5, static_cast<std::uint64_t>(board)));
        const auto seed = static_cast<std::uint32_t>(rng.unit() * 4e9);
        for (int i = 0; i < kPoints; ++i) {
            const glm::vec3 at(rng.within(0, 140), rng.within(0, 20), rng.within(0, 1800));
            factor += 1 + kContrast * static_cast<double>(wood_tone(at, {0, 0, 1}, 3, seed));
        }
    }
    factor /= kBoards * kPoints;
    const auto lightness = [](double r) { return 116 * std::cbrt(r) - 16; };
    EXPECT_LT(std::abs(lightness(kReflectance * factor) - lightness(kReflectance)), 0.5);
}

TEST(WoodGrain, RunsAlongTheTrunk) {
    double along = 0, across = 0;
    Rng rng(3);
    for (int i = 0; i < 4000; ++i) {
        const glm::vec3 at(rng.within(0, 100), rng.within(0, 20), rng.within(0, 1000));
        const auto tone = [&](const glm::vec3& aside) {
            return static_cast<double>(wood_tone(at + aside, {0, 0, 1}, 3, 77));
        };
        along += std::abs(tone({0, 0, 2}) - tone({}));
        across += std::abs(tone({2, 0, 0}) - tone({}));
    }
    EXPECT_GT(across, 4 * along);
}

TEST(WoodGrain, EndGrainShowsRingsOfTheStatedWidth) {
    // Along a line away from the pith the tone jumps from late to early wood once a ring; with seed 0 the
    // pith lies on the first axis across.
    int jumps = 0;
    constexpr float kStep_mm = 0.05f, kRing_mm = 4;
    const Basis across(glm::vec3(0, 0, 1));
    float before = wood_tone({}, {0, 0, 1}, kRing_mm, 0);
    for (int i = 1; i * kStep_mm < 400; ++i) {
        const float here = wood_tone(across.x * (-kStep_mm * static_cast<float>(i)), {0, 0, 1}, kRing_mm, 0);
        jumps += here - before > 0.9f;
        before = here;
    }
    EXPECT_NEAR(jumps, 400 / kRing_mm, 12);
}

TEST(WoodGrain, IsTheSameAgainAndAnotherInAnotherBoard) {
    const glm::vec3 at(10, 3, 400);
    EXPECT_EQ(wood_tone(at, {0, 0, 1}, 3, 9), wood_tone(at, {0, 0, 1}, 3, 9));
    EXPECT_NE(wood_tone(at, {0, 0, 1}, 3, 9), wood_tone(at, {0, 0, 1}, 3, 10));
}
