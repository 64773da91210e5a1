#include "renderer/sampler.h"

#include <gtest/gtest.h>

#include <set>

using namespace rakelight;

// Sobol 1967: the first two Sobol dimensions are a (0, 2)-sequence, so of the first 2^m points each
// elementary interval of area 2^-m holds exactly one; Owen 1995: scrambling keeps that.
TEST(Sampler, EveryElementaryIntervalHoldsOnePoint) {
    constexpr int kBits = 8;
    for (const std::uint32_t seed : {1u, 77u, 0xdeadbeefu})
        for (int pair = 0; pair < 4; ++pair)
            for (int x_bits = 0; x_bits <= kBits; ++x_bits) {
                std::set<int> cells;
                for (std::uint32_t i = 0; i < 1u << kBits; ++i) {
                    Sampler sampler(seed, i);
                    glm::vec2 u{};
                    for (int p = 0; p <= pair; ++p) u = sampler.next();
                    const int x = static_cast<int>(u.x * static_cast<float>(1 << x_bits));
                    const int y = static_cast<int>(u.y * static_cast<float>(1 << (kBits - x_bits)));
                    cells.insert(x << (kBits - x_bits) | y);
                }
                EXPECT_EQ(cells.size(), 1u << kBits)
                    << "seed " << seed << ", pair " << pair << ", x bits " << x_bits;
            }
}

TEST(Sampler, PairsArePaddedIndependently) {
    // Correlation of two pairs of dimensions over many seeds stays at the level of chance (1 / sqrt(n) =
    // 0.0055).
    double product = 0;
    constexpr std::uint32_t kPatterns = 32768;
    for (std::uint32_t seed = 0; seed < kPatterns; ++seed) {
        Sampler sampler(mix_word(seed), 3);
        const glm::vec2 a = sampler.next();
        const glm::vec2 b = sampler.next();
        product += (a.x - 0.5) * (b.x - 0.5) * 12;
    }
    EXPECT_NEAR(product / kPatterns, 0, 0.025);
}

TEST(Sampler, NeighbouringPixelsAndPicturesDiffer) {
    std::set<std::uint32_t> seeds;
    for (int y = 0; y < 64; ++y)
        for (int x = 0; x < 64; ++x)
            for (std::uint32_t picture = 0; picture < 4; ++picture) seeds.insert(pixel_seed(x, y, picture));
    EXPECT_EQ(seeds.size(), 64u * 64u * 4u);
}
