#include "output/take_off/reckoning/purchase.h"

#include <gtest/gtest.h>

#include <cmath>

#include "scene/model/layout.h"
#include "tests/support/take_off_samples.h"

namespace rakelight {
namespace {

// Usual waste (common practice, no published source): sheet glass 15 to 30 %, smalti 10 to 20, stone 15 to
// 25, pebbles 30 to 50, slag 20 to 40, and 10 more where rows bend.
TEST(Purchase, WasteFollowsHandAndOpus) {
    const Layout layout = sample_layout(Opus::regulatum, 10, 10, 1);
    Field field = layout.fields[0];
    const Material &glass = layout.stock[0], &slate = layout.stock[1], &slag = layout.stock[3];
    TakeOffWishes wishes;
    const auto waste = [&](Hand hand, const Material& m, PieceForm form) {
        wishes.hand = hand;
        return waste_share(wishes, field, m, form);
    };
    EXPECT_NEAR(waste(Hand::sure, glass, PieceForm::sawn), 0.15, 1e-12);
    EXPECT_NEAR(waste(Hand::learning, glass, PieceForm::sawn), 0.30, 1e-12);
    EXPECT_NEAR(waste(Hand::usual, glass, PieceForm::riven), 0.15, 1e-12);
    EXPECT_NEAR(waste(Hand::learning, slate, PieceForm::riven), 0.25, 1e-12);
    EXPECT_NEAR(waste(Hand::sure, slate, PieceForm::pebble), 0.30, 1e-12);
    EXPECT_NEAR(waste(Hand::learning, slag, PieceForm::chunk), 0.40, 1e-12);
    field.opus = Opus::vermiculatum;
    EXPECT_NEAR(waste(Hand::sure, glass, PieceForm::sawn), 0.25, 1e-12);
    field.opus = Opus::palladianum;
    EXPECT_NEAR(waste(Hand::sure, slate, PieceForm::riven), 0.15, 1e-12);
    wishes.waste[static_cast<std::size_t>(Stuff::stone)] = 0.5;
    EXPECT_NEAR(waste(Hand::sure, slate, PieceForm::riven), 0.5, 1e-12);
    wishes.buying["slate"].waste = 0.05;
    EXPECT_NEAR(waste(Hand::sure, slate, PieceForm::riven), 0.05, 1e-12);
}

// 24 x 24 squares of 10 x 10 x 6 mm, arrises eased: 576 cm2, a little under 864 g of glass at 2.5 g/cm3.
TEST(Purchase, AreaMassSparesSheetsAndMoney) {
    Layout layout = level_grid(10, 1.5, 24 * 11.5 - 1.5, 24 * 11.5 - 1.5);
    layout.stock[0].cost = {120, Cost::Per::m2};
    const LaidSample s = laid_sample(layout);
    TakeOffWishes wishes;
    wishes.sheet_mm = {150, 100};
    const auto bought = purchases(s.layout, s.laying, s.volumes, wishes);
    ASSERT_EQ(bought.size(), 1u);
    const Purchase& p = bought[0];
    EXPECT_EQ(p.pieces, 576u);
    EXPECT_NEAR(p.net_mm2, 57600, 0.03 * 57600);
    EXPECT_NEAR(p.net_g, p.net_mm2 * 6 * 2.5 / 1000, 0.03 * p.net_g);
    EXPECT_LT(p.net_g, p.net_mm2 * 6 * 2.5 / 1000);
    EXPECT_EQ(p.spare_pieces, 18);  // 3 % of 576
    EXPECT_NEAR(p.bought_mm2, p.net_mm2 * 1.225 * (1 + 18.0 / 576), 1);
    EXPECT_TRUE(p.by_sheet);
    EXPECT_EQ(p.packs, 5);  // 728 cm2 of sheets of 150 cm2
    EXPECT_NEAR(p.cost, 5 * 0.015 * 120, 1e-9);
}

TEST(Purchase, LeastSparesAndBags) {
    Layout layout = level_grid(20, 2, 108, 108);
    layout.fields[0].mix = {{kSlate, 1}};
    layout.stock[1].cost = {3, Cost::Per::kg};
    const LaidSample s = laid_sample(layout);
    TakeOffWishes wishes;
    wishes.bag_g = 400;
    const auto bought = purchases(s.layout, s.laying, s.volumes, wishes);
    ASSERT_EQ(bought.size(), 1u);
    EXPECT_EQ(bought[0].pieces, 25u);
    EXPECT_EQ(bought[0].spare_pieces, 10);
    EXPECT_FALSE(bought[0].by_sheet);
    EXPECT_EQ(bought[0].packs, static_cast<int>(std::ceil(bought[0].bought_g / 400)));
    EXPECT_NEAR(bought[0].cost, bought[0].packs * 0.4 * 3, 1e-9);
}

TEST(Purchase, StonesArePickedOneByOne) {
    Layout layout = level_grid(12, 2, 200, 120);
    layout.stones = {slag_stone()};
    const LaidSample s = laid_sample(layout);
    const auto bought = purchases(s.layout, s.laying, s.volumes, {});
    ASSERT_EQ(bought.size(), 2u);
    EXPECT_EQ(bought[1].stones, 1u);
    EXPECT_TRUE(bought[1].picked);
    EXPECT_EQ(bought[1].spare_pieces, 0);
    EXPECT_NEAR(bought[1].bought_g, bought[1].net_g, 1e-9);
    // Broken out of a box of 34 x 28 x 20 mm.
    EXPECT_GT(bought[1].net_g, 0.25 * 34 * 28 * 20 * 2.4 / 1000);
    EXPECT_LT(bought[1].net_g, 34 * 28 * 20 * 2.4 / 1000);
}

}  // namespace
}  // namespace rakelight
