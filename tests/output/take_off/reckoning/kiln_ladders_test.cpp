#include "output/take_off/reckoning/kiln_ladders.h"

#include <gtest/gtest.h>

#include "output/take_off/reckoning/metal_leaf.h"
#include "scene/model/layout.h"
#include "scene/text/layout_tree.h"
#include "tests/support/laying_samples.h"

namespace rakelight {
namespace {

constexpr std::string_view kText =
    "stock:\n"
    "  tide: {ladder: {from: light, to: heavy, steps: 5}}\n"
    "  more: {like: tide-2}\n"
    "  plain: {like: aqua}\n";

Sources sources() {
    Sources sources;
    sources.path = "f.yaml";
    sources.tree = std::make_shared<const LayoutTree>(gather_layout(kText, sources.path));
    return sources;
}

TEST(KilnLadders, ShadesAreEvenSharesByVolume) {
    const auto ladders = ladders_in(sources());
    ASSERT_EQ(ladders.size(), 6u);
    EXPECT_EQ(ladders.at("tide-1").share, 0);
    EXPECT_EQ(ladders.at("tide-2").share, 0.25);
    EXPECT_EQ(ladders.at("tide-5").share, 1);
    EXPECT_EQ(ladders.at("more").share, 0.25);
    EXPECT_EQ(ladders.at("tide-3").from, "light");
}

// 300 g of a shade, a quarter of it heavy by volume: of densities 2.4 and 3.6 the shade has 2.7 g/cm3, so
// 111.1 cm3, of which 83.3 weigh 200 g and 27.8 weigh 100 g.
TEST(KilnLadders, GramsOfBothEnds) {
    std::vector<Material> stock{
        sample_material("light", Kind::glass, 3, 2.4f), sample_material("heavy", Kind::glass, 3, 3.6f),
        sample_material("tide-2", Kind::glass, 3, 2.7f), sample_material("slate", Kind::stone, 6, 2.7f)};
    std::vector<Purchase> bought(2);
    bought[0].material = 2;
    bought[0].by_sheet = true;
    bought[0].packs = 1;
    bought[0].bought_g = 300;
    bought[0].bought_mm2 = 100'000;
    bought[1].material = 3;
    bought[1].packs = 1;
    const auto cast = castings(stock, bought, ladders_in(sources()));
    ASSERT_EQ(cast.size(), 1u);
    EXPECT_NEAR(cast[0].from_g, 200, 0.01);
    EXPECT_NEAR(cast[0].to_g, 100, 0.01);
    EXPECT_TRUE(bought[0].cast);
    EXPECT_EQ(bought[0].packs, 0);  // nobody sells sheets of it
    EXPECT_FALSE(bought[1].cast);
    EXPECT_EQ(bought[1].packs, 1);
    EXPECT_EQ(firings(cast, {300, 300}), 2);  // 1000 cm2 on shelves of 900
}

// 900 cm2 and a fifth are 1080 cm2; a leaf of 80 mm has 64 cm2: 17 leaves, one book.
TEST(MetalLeaf, LeavesAndBooks) {
    std::vector<Material> stock{sample_material("gold", Kind::glass, 3, 2.5f),
                                sample_material("plain", Kind::glass, 3, 2.5f)};
    stock[0].leaf = Leaf::gold;
    std::vector<Purchase> bought(2);
    bought[0].material = 0;
    bought[0].bought_mm2 = 90'000;
    bought[1].material = 1;
    bought[1].bought_mm2 = 90'000;
    auto needs = leaf_needs(stock, bought);
    ASSERT_EQ(needs.size(), 1u);
    EXPECT_EQ(needs[0].leaves, 17);
    EXPECT_EQ(needs[0].books, 1);
    bought[0].bought_mm2 = 150'000;  // 29 leaves
    EXPECT_EQ(leaf_needs(stock, bought)[0].books, 2);
}

}  // namespace
}  // namespace rakelight
