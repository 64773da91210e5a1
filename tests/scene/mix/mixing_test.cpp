#include "scene/mix/mixing.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>
#include <vector>

#include "scene/model/layout.h"
#include "tests/support/laying_samples.h"

namespace rakelight {
namespace {

TEST(Mixing, CountsByLargestRemainders) {
    // 7 pieces at 50/30/20 %: quotas 3.5, 2.1, 1.4 give 3, 2, 1 and one over, to the largest remainder 0.5.
    const double shares[] = {0.5, 0.3, 0.2};
    EXPECT_EQ(shared_counts(shares, 7), (std::vector<std::size_t>{4, 2, 1}));
    EXPECT_EQ(shared_counts(shares, 0), (std::vector<std::size_t>{0, 0, 0}));
}

constexpr int kColumns = 40, kRows = 30, kSeeds = 12;

// Which pieces of a wall of squares are slate, 30 % of them.
std::vector<bool> slates(std::uint64_t seed) {
    Layout layout = sample_layout(Opus::regulatum, 10, 10, 1.5);
    layout.fields[0].mix = {{kGlass, 0.6}, {kSlate, 0.3}, {kPumice, 0.1}};
    auto pieces = square_pieces(kColumns, kRows);
    mix_materials(layout.fields[0], seed, pieces);
    std::vector<bool> r;
    for (const Piece& piece : pieces) r.push_back(piece.material == 1);
    return r;
}

// The same number of slates laid by pure chance.
std::vector<bool> shuffled(std::uint64_t seed) {
    std::vector<bool> r = slates(seed);
    std::shuffle(r.begin(), r.end(), std::mt19937_64(seed));
    return r;
}

// Pairs side by side that are both slate, over what pure chance makes in the mean: n (n - 1) / (N (N - 1)) of
// all pairs.
double touching(const std::vector<bool>& slate) {
    const auto n = static_cast<double>(std::count(slate.begin(), slate.end(), true));
    const auto all = static_cast<double>(slate.size());
    int pairs = 0;
    for (std::size_t i = 1; i < slate.size(); ++i) pairs += i % kColumns && slate[i] && slate[i - 1];
    return pairs / ((kColumns - 1) * kRows * n * (n - 1) / (all * (all - 1)));
}

// Variance of the number of slates in windows of 5 by 5 over that of pure chance, which is hypergeometric:
// w p (1 - p) (N - w) / (N - 1).
double unevenness(const std::vector<bool>& slate) {
    constexpr int kSide = 5, kWindow = kSide * kSide;
    const auto all = static_cast<double>(slate.size());
    const double p = static_cast<double>(std::count(slate.begin(), slate.end(), true)) / all;
    double square = 0;
    int windows = 0;
    for (int y = 0; y < kRows; y += kSide)
        for (int x = 0; x < kColumns; x += kSide, ++windows) {
            int count = 0;
            for (int k = 0; k < kWindow; ++k)
                count += slate[static_cast<std::size_t>((y + k / kSide) * kColumns + x + k % kSide)];
            square += (count - p * kWindow) * (count - p * kWindow);
        }
    return square / windows / (kWindow * p * (1 - p) * (all - kWindow) / (all - 1));
}

double over_seeds(std::vector<bool> (*laid)(std::uint64_t), double (*measure)(const std::vector<bool>&)) {
    double sum = 0;
    for (std::uint64_t seed = 1; seed <= kSeeds; ++seed) sum += measure(laid(seed)) / kSeeds;
    return sum;
}

TEST(Mixing, SharesAreExact) {
    for (std::uint64_t seed = 1; seed <= kSeeds; ++seed) {
        const auto slate = slates(seed);
        EXPECT_EQ(std::count(slate.begin(), slate.end(), true), kColumns * kRows * 3 / 10);
    }
}

// Strewn by hand: like pieces touch less than by chance, but some do, and every patch has nearly its share.
// Both measures are 1 for pure chance: of the 12 walls' 105 pairs each a fortieth of that is one standard
// deviation, of the 12 by 48 windows' variance a seventeenth.
TEST(Mixing, IsSpreadMoreEvenlyThanByChance) {
    EXPECT_NEAR(over_seeds(shuffled, touching), 1, 0.1);
    EXPECT_NEAR(over_seeds(shuffled, unevenness), 1, 0.2);
    EXPECT_LT(over_seeds(slates, touching), 0.75);
    EXPECT_GT(over_seeds(slates, touching), 0.1);
    EXPECT_LT(over_seeds(slates, unevenness), 0.5);
    EXPECT_GT(over_seeds(slates, unevenness), 0.02);  // not ruled like a chessboard
}

// The same wall in a field that says 3 mm, as drawn shapes and pebbles may be of sizes that nobody said.
std::vector<bool> slates_said_small(std::uint64_t seed) {
    Layout layout = sample_layout(Opus::sectile, 3, 3, 1.5);
    layout.fields[0].mix = {{kGlass, 0.6}, {kSlate, 0.3}, {kPumice, 0.1}};
    auto pieces = square_pieces(kColumns, kRows);
    mix_materials(layout.fields[0], seed, pieces);
    std::vector<bool> r;
    for (const Piece& piece : pieces) r.push_back(piece.material == kSlate);
    return r;
}

TEST(Mixing, NeighboursAreThoseOfThePiecesLaid) {
    EXPECT_NEAR(over_seeds(slates_said_small, touching), over_seeds(slates, touching), 0.12);
    EXPECT_LT(over_seeds(slates_said_small, touching), 0.85);
}

}  // namespace
}  // namespace rakelight
