#include "scene/mix/shades.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "scene/geometry/region.h"
#include "scene/model/layout.h"
#include "tests/support/laying_samples.h"

namespace rakelight {
namespace {

Layout shifting(std::vector<std::vector<MixPart>> shades) {
    Layout layout = sample_layout(Opus::regulatum, 10, 10, 1.5);
    MixShift shift;
    shift.by = MixShift::By::towards;
    shift.shades = std::move(shades);
    layout.fields[0].shift = shift;
    return layout;
}

TEST(ShadeTable, LinearBetweenStations) {
    MixShift shift;
    shift.by = MixShift::By::away;
    shift.shades = {{{5, 1}}, {{3, 0.5}, {5, 0.5}}, {{4, 1}}};
    shift.at = {0, 10, 60};
    const ShadeTable table = shade_table(shift, 0, 0);
    std::vector<double> s(3);
    const auto expect = [&](double at, double a, double b, double c) {
        shares_at(table, at, s);
        EXPECT_NEAR(s[0], a, 1e-12) << at;
        EXPECT_NEAR(s[1], b, 1e-12) << at;
        EXPECT_NEAR(s[2], c, 1e-12) << at;
    };
    expect(-5, 1, 0, 0);
    expect(5, 0.75, 0.25, 0);
    expect(10, 0.5, 0.5, 0);
    expect(35, 0.25, 0.25, 0.5);
    expect(70, 0, 0, 1);
}

TEST(ShadeTable, BlendNarrowsTheChange) {
    MixShift shift;
    shift.by = MixShift::By::along;
    shift.shades = {{{0, 1}}, {{1, 1}}};
    shift.blend = 0.5;
    std::vector<double> s(2);
    const ShadeTable table = shade_table(shift, 0, 0);
    for (const auto& [at, b] : {std::pair{0.2, 0.0}, {0.25, 0.0}, {0.5, 0.5}, {0.625, 0.75}, {0.8, 1.0}}) {
        shares_at(table, at, s);
        EXPECT_NEAR(s[1], b, 1e-12) << at;
    }
}

// In a slice of n pieces whose mean share is p, pure chance would leave a standard deviation of
// sqrt(n p (1 - p)) (binomial). Strewn evenly the count keeps well within one of them everywhere, and from
// slice to slice the second shade never falls back.
TEST(MixShades, EverySliceHasItsShare) {
    constexpr int kColumns = 60, kRows = 40, kSlice = 6;
    const Layout layout = shifting({{{kGlass, 1}}, {{kSlate, 1}}});
    for (const std::uint64_t seed : {1, 2, 3, 4}) {
        auto pieces = square_pieces(kColumns, kRows);
        mix_shades(layout.fields[0], seed, pieces);
        double square = 0;
        int before = -1, slices = 0;
        for (int x0 = 0; x0 < kColumns; x0 += kSlice, ++slices) {
            int slates = 0;
            double wanted = 0, variance = 0;
            for (int y = 0; y < kRows; ++y)
                for (int x = x0; x < x0 + kSlice; ++x) {
                    slates += pieces[static_cast<std::size_t>(y * kColumns + x)].material == 1;
                    const double p = x / (kColumns - 1.0);
                    wanted += p;
                    variance += p * (1 - p);
                }
            EXPECT_NEAR(slates, wanted, 1.5 * std::sqrt(variance) + 1) << "slice at " << x0;
            square += (slates - wanted) * (slates - wanted) / variance;
            EXPECT_GT(slates, before);
            before = slates;
        }
        EXPECT_LT(square / slices, 0.5);  // 1 by chance
    }
}

// No clumps: where both shades are half and half, pure chance makes half of the neighbours alike.
TEST(MixShades, NeighboursDiffer) {
    const Layout layout = shifting({{{kGlass, 0.5}, {kSlate, 0.5}}, {{kSlate, 0.5}, {kGlass, 0.5}}});
    auto pieces = square_pieces(60, 40);
    mix_shades(layout.fields[0], 5, pieces);
    int alike = 0, pairs = 0, slates = 0;
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        slates += pieces[i].material == 1;
        if (i % 60 == 0) continue;
        ++pairs;
        alike += pieces[i].material == pieces[i - 1].material;
    }
    // Thresholds of our own, only to catch a slip: half is pure chance, none a chessboard.
    EXPECT_LT(alike, 0.45 * pairs);
    EXPECT_GT(alike, 0.15 * pairs);
    EXPECT_NEAR(slates, 1200, 0.5 * std::sqrt(2400 * 0.25));
}

TEST(MixShades, DoesNotDependOnTheOrderOfPieces) {
    const Layout layout = shifting({{{kGlass, 1}}, {{kPumice, 0.5}, {kSlate, 0.5}}, {{kSlag, 1}}});
    auto there = square_pieces(30, 20), back = there;
    std::reverse(back.begin(), back.end());
    mix_shades(layout.fields[0], 8, there);
    mix_shades(layout.fields[0], 8, back);
    for (std::size_t i = 0; i < there.size(); ++i)
        EXPECT_EQ(there[i].material, back[back.size() - 1 - i].material);
}

}  // namespace
}  // namespace rakelight
