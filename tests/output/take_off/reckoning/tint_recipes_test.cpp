#include "output/take_off/reckoning/tint_recipes.h"

#include <gtest/gtest.h>

#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"

namespace rakelight {
namespace {

constexpr std::string_view kText =
    "panel: {size: [200, 100]}\n"
    "tints:\n"
    "  mine: {base: white-cement, pigments: {PB28: 4 %, PBk11: 0.6 %}}\n"
    "  also: {like: mine, texture: {contrast: 5 %}}\n"
    "fields:\n"
    "  - {name: a, mix: slate, grout: mine, zone: a, outline: [[0, 0], [90, 0], [90, 100], [0, 100]]}\n"
    "  - {name: b, mix: slate, grout: charcoal, bed: epoxy-white}\n";

// What a text says, as far as it is looked at here.
Sources sources_of(std::string_view text) {
    Sources sources;
    sources.path = "f.yaml";
    sources.tree = std::make_shared<const LayoutTree>(gather_layout(text, sources.path));
    return sources;
}

TEST(TintRecipes, TakesTheLayoutsOwn) {
    const auto own = recipes_in(sources_of(kText));
    ASSERT_EQ(own.size(), 2u);
    ASSERT_EQ(own.at("mine").doses.size(), 2u);
    EXPECT_NEAR(own.at("mine").doses[0].share, 0.04, 1e-12);
    EXPECT_EQ(own.at("also").doses.size(), 2u);
}

TEST(TintRecipes, LooksForTheOthers) {
    const Layout layout = read_layout_text(kText, "f.yaml");
    const auto all = tint_recipes(layout.tints, recipes_in(sources_of(kText)));
    EXPECT_TRUE(all.at("mine").of_the_layout);
    const TintRecipe& charcoal = all.at("charcoal");
    EXPECT_FALSE(charcoal.of_the_layout);
    EXPECT_EQ(charcoal.recipe.base.kind, Kind::cement);
    EXPECT_LT(charcoal.delta_e, 2);
    for (const Dose& dose : charcoal.recipe.doses) EXPECT_TRUE(dose.pigment.cement_warning.empty());
    const TintRecipe& bed = all.at("epoxy-white");
    EXPECT_EQ(bed.recipe.base.kind, Kind::epoxy);
    // Weighed as dense as the layout says it cures: nothing leaves a resin.
    EXPECT_NEAR(bed.recipe.base.weighed_g_per_cm3, 1.15, 1e-6);
}

}  // namespace
}  // namespace rakelight
