#include "output/take_off/reckoning/fused_stacks.h"

#include <gtest/gtest.h>

#include "scene/model/layout.h"
#include "scene/text/layout_tree.h"
#include "tests/support/take_off_samples.h"

namespace rakelight {
namespace {

constexpr std::string_view kText =
    "stock:\n"
    "  two: {stack: [{glass: aqua, thickness: 3}, {glass: clear, thickness: 3}]}\n"
    "  three: {stack: [{glass: aqua, thickness: 3}, {glass: clear, thickness: 3}, {glass: opal, thickness: "
    "3}]}\n"
    "  dammed: {stack: [{glass: aqua, thickness: 6}, {glass: clear, thickness: 3}], firing: dammed}\n"
    "  again: {like: three}\n"
    "  plain: {like: aqua}\n";

// What a text says, as far as it is looked at here.
Sources sources_of(std::string_view text) {
    Sources sources;
    sources.path = "f.yaml";
    sources.tree = std::make_shared<const LayoutTree>(gather_layout(text, sources.path));
    return sources;
}

// Molten sheet tends to 6 mm: two sheets of 3 mm keep their size, three spread to half as much again
// (9 mm / 6 mm, by volume), unless they are held. Common practice of fusing.
TEST(FusedStacks, SixMillimetreRule) {
    const auto stacks = stacks_in(sources_of(kText));
    ASSERT_EQ(stacks.size(), 4u);
    EXPECT_NEAR(stacks.at("two").fired.area_growth, 1, 1e-12);
    EXPECT_NEAR(stacks.at("three").fired.area_growth, 1.5, 1e-12);
    EXPECT_NEAR(stacks.at("three").fired.thickness_mm, 6, 1e-12);
    EXPECT_NEAR(stacks.at("dammed").fired.area_growth, 1, 1e-12);
    EXPECT_NEAR(stacks.at("dammed").fired.thickness_mm, 9, 1e-12);
    EXPECT_EQ(stacks.at("again").layers.size(), 3u);
    EXPECT_EQ(stacks.at("two").layers[1].glass, "clear");
}

TEST(FusedStacks, WhatIsCutMakesWhatIsLaid) {
    Layout layout = sample_layout(Opus::regulatum, 10, 10, 1);
    layout.stock[0].name = "three";
    layout.stock[1].name = "slate";
    Purchase glass, stone;
    glass.material = 0;
    glass.by_sheet = true;
    glass.bought_mm2 = 90'000;
    glass.sheet_mm = {200, 200};
    stone.material = 1;
    const auto f = fusings(layout.stock, {glass, stone}, stacks_in(sources_of(kText)));
    ASSERT_EQ(f.size(), 1u);
    EXPECT_NEAR(f[0].cut_mm2, 60'000, 1e-6);  // 90 000 / 1.5
    EXPECT_EQ(f[0].sheets, 2);                // of 40 000 mm2, of each of the three
}

}  // namespace
}  // namespace rakelight
