#include "output/take_off/reckoning/take_off.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "output/take_off/reckoning/section.h"
#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"

namespace rakelight {
namespace {

TakeOff of(const std::string& text) {
    const Layout layout = read_layout_text(text, "f.yaml");
    return take_off(layout, lay(layout), read_workshop(layout), makings_in(layout.sources));
}

bool warns(const TakeOff& t, const std::string& part) {
    return std::any_of(t.warnings.begin(), t.warnings.end(),
                       [&](const std::string& w) { return w.find(part) != std::string::npos; });
}

// A patch of 28 x 28 mm in the middle of a panel.
std::string patch(const std::string& more, const char* joint = "1.6") {
    return std::string(
               "panel: {size: [160, 120], substrate: {bed thickness: 2.5}}\n"
               "stock: {thin: {like: aqua, thickness: 3}}\n"
               "tints: {mine: {base: white-cement, pigments: {PB28: 4 %}}}\n"
               "fields:\n"
               "  - {name: patch, outline: [[60, 40], [88, 40], [88, 68], [60, 68]], opus: tessellatum,"
               " piece: 6, joint: ") +
           joint +
           ", mix: thin, grout: mine, zone: patch}\n"
           "  - {name: rest, opus: tessellatum, piece: 10, joint: " +
           joint + ", mix: thin, grout: charcoal, zone: rest}\n" + more;
}

TEST(TakeOff, ASmallZoneIsMixedByEye) {
    const TakeOff t = of(patch(""));
    ASSERT_EQ(t.zones.size(), 2u);
    EXPECT_LT(t.zones[0].area_mm2, kLeastZone_mm2);
    EXPECT_TRUE(warns(t, "zone patch has"));
    EXPECT_FALSE(warns(t, "zone rest has"));
    EXPECT_NEAR(t.mixes[0].waste, 0.5, 1e-12);  // small zones lose half as much again
    EXPECT_FALSE(warns(t, "cut clean"));
    // 4 % of the cement, which is 40 % of all the powder.
    EXPECT_TRUE(t.mixes[0].recipe.of_the_layout);
    ASSERT_EQ(t.mixes[0].batch.pigments.size(), 1u);
    EXPECT_NEAR(t.mixes[0].batch.pigments[0].grams, 0.04 * 0.4 * t.mixes[0].batch.total_g, 0.05);
}

TEST(TakeOff, NarrowJointsBetweenZonesAreSaid) {
    EXPECT_TRUE(warns(of(patch("", "0.7")), "between patch and rest"));
}

TEST(TakeOff, ZonesTakeTurnsAndWishesMakeCircles) {
    const TakeOff t = of(patch("zones: {order: [[rest, patch]]}\n"));
    EXPECT_EQ(t.step_of(1), 1u);
    EXPECT_EQ(t.step_of(0), 2u);
    const bool lighter = t.zones[0].traits.lightness > t.zones[1].traits.lightness + kImmaterialLightness;
    EXPECT_TRUE(lighter);
    EXPECT_TRUE(warns(t, "goes round in a circle"));
}

TEST(TakeOff, ThickBedsUnderThinPiecesAreSaid) {
    EXPECT_FALSE(warns(of(patch("")), "the bed is up to"));
    const std::string mixed =
        "panel: {size: [160, 120], substrate: {bed thickness: 2.5}}\n"
        "stock: {thin: {like: aqua, thickness: 3}}\n"
        "fields:\n"
        "  - {name: stone, outline: [[0, 0], [60, 0], [60, 120], [0, 120]], opus: palladianum, piece: 15, "
        "mix: basalt}\n"
        "  - {name: glass, piece: 10, mix: thin}\n";
    const TakeOff t = of(mixed);
    EXPECT_TRUE(warns(t, "under glass"));
    EXPECT_NEAR(t.volumes.fields[1].bed_under_mm, 2.5 + 10 - 3, 0.2);  // levelled to the basalt's 10 mm
}

TEST(TakeOff, TwoMixesOfAZoneAreSaid) {
    std::string deep = patch("zones: {largest batch: 150 g, each: {rest: {waste: 300 %}}}\n");
    deep.replace(deep.find("thickness: 3"), 12, "thickness: 14");
    const TakeOff t = of(deep);
    EXPECT_NEAR(t.mixes[1].waste, 3, 1e-12);
    EXPECT_EQ(t.mixes[1].batch.pots, static_cast<int>(std::ceil(t.mixes[1].batch.mix_g / 150)));
    EXPECT_TRUE(warns(t, "zone rest takes"));
}

TEST(TakeOff, WithoutGroutThereAreNoZones) {
    const TakeOff t =
        of("panel: {size: [100, 80]}\nfields: [{name: all, piece: 12, mix: slate, grout: none}]\n");
    EXPECT_TRUE(t.zones.empty());
    EXPECT_TRUE(t.order.order.empty());
    EXPECT_EQ(t.beds.size(), 1u);
    EXPECT_GT(t.weighing.likely_kg, 0);
}

}  // namespace
}  // namespace rakelight
