#include "scene/mix/mixing.h"

#include <gtest/gtest.h>

#include <numeric>

#include "materials/maths/hash.h"
#include "tests/support/laying_samples.h"

namespace rakelight {
namespace {

TEST(Mixing, CountsByLargestRemainders) {
    // 7 pieces at 50/30/20 %: quotas 3.5, 2.1, 1.4 give 3, 2, 1 and one over, to the largest remainder 0.5.
    const double shares[] = {0.5, 0.3, 0.2};
    EXPECT_EQ(shared_counts(shares, 7), (std::vector<std::size_t>{4, 2, 1}));
    EXPECT_EQ(shared_counts(shares, 0), (std::vector<std::size_t>{0, 0, 0}));
}

TEST(Mixing, SharesAreExactAndSpread) {
    Layout layout = sample_layout(Opus::regulatum, 10, 10, 1.5);
    Field& field = layout.fields[0];
    field.mix = {{"glass", 0.7}, {"slate", 0.3}};
    auto pieces = square_pieces(40, 30);
    mix_materials(field, layout.stock, 9, pieces);
    std::size_t slates = 0, touching = 0;
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        slates += pieces[i].material == 1;
        if (i % 40) touching += pieces[i].material == 1 && pieces[i - 1].material == 1;
    }
    EXPECT_EQ(slates, 360u);
    // Pure chance would make 0.3^2 of the 1170 pairs side by side both slate: 105. Spread by hand: clearly
    // fewer, but some.
    EXPECT_LT(touching, 85u);
    EXPECT_GT(touching, 5u);
}

TEST(Mixing, EveryQuarterHasItsShare) {
    Layout layout = sample_layout(Opus::regulatum, 10, 10, 1.5);
    Field& field = layout.fields[0];
    field.mix = {{"glass", 0.6}, {"slate", 0.3}, {"pumice", 0.1}};
    auto pieces = square_pieces(40, 30);
    mix_materials(field, layout.stock, 3, pieces);
    int count[4][3] = {};
    for (std::size_t i = 0; i < pieces.size(); ++i)
        ++count[(i % 40 / 20) + 2 * (i / 40 / 15)][pieces[i].material];
    for (const auto& quarter : count) {
        EXPECT_NEAR(quarter[0], 180, 25);
        EXPECT_NEAR(quarter[1], 90, 20);
        EXPECT_NEAR(quarter[2], 30, 12);
    }
}

}  // namespace
}  // namespace rakelight
