// The keys that belong to one opus: read, checked against it, and refused where they do not belong.
#include "scene/reading/field/opus.h"
#include "scene/model/layout.h"

#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <vector>

#include "scene/reading/layout_reader.h"
#include "scene/reading/summary.h"
#include "scene/text/diagnostics.h"
#include "tests/support/refusal.h"

namespace rakelight {
namespace {

std::string field(const std::string& rest) {
    return "panel: {size: [600, 400]}\nfields:\n  - {name: all, mix: slate, " + rest + "}\n";
}

Layout good(const std::string& rest) {
    return read_layout_text(field(rest), "test.yaml");
}

std::string refusal(const std::string& rest) {
    return refusal_of([&] { good(rest); });
}

TEST(ReadOpus, EveryWordIsKnown) {
    EXPECT_EQ(good("opus: classicum").fields[0].opus, Opus::classicum);
    EXPECT_EQ(good("opus: fans").fields[0].opus, Opus::fans);
    EXPECT_EQ(good("opus: pebbles").fields[0].opus, Opus::pebbles);
    EXPECT_EQ(good("opus: sectile, joint: 0.5, shapes: [[[9, 9], [99, 9], [9, 99]]]").fields[0].opus,
              Opus::sectile);
}

TEST(ReadOpus, ClassicumHasAHalo) {
    EXPECT_EQ(good("opus: classicum").fields[0].halo_rows, 2);
    EXPECT_EQ(good("opus: classicum, halo: 1").fields[0].halo_rows, 1);
    EXPECT_NE(refusal("opus: classicum, halo: 0").find("fields[1].halo: found no halo rows"),
              std::string::npos);
}

std::string with_moon(const std::string& halo) {
    return "panel: {size: [600, 400]}\nfields:\n"
           "  - {name: moon, mix: slate, outline: [[100, 100], [200, 100], [150, 200]]}\n"
           "  - {name: sky, mix: slate, halo: " +
           halo + "}\n";
}

TEST(ReadOpus, AHaloNamesItsFigures) {
    const auto sky = [](const std::string& halo) {
        return read_layout_text(with_moon(halo), "test.yaml").fields[1];
    };
    EXPECT_EQ(sky("3").halo_rows, 3);
    EXPECT_FALSE(sky("3").halo_at_panel_edge);
    EXPECT_EQ(sky("{round: moon}").halo_rows, 2);
    EXPECT_EQ(sky("{rows: 1, round: [moon]}").halo_round, std::vector<std::string>{"moon"});
    EXPECT_TRUE(sky("{rows: 1, panel edge: yes}").halo_at_panel_edge);
    const auto refused = [](const std::string& halo) {
        return refusal_of([&] { read_layout_text(with_moon(halo), "test.yaml"); });
    };
    EXPECT_NE(refused("{round: mon}")
                  .find("fields[2].halo.round: found \"mon\", expected the name of another field; "
                        "did you mean moon?"),
              std::string::npos)
        << refused("{round: mon}");
    EXPECT_NE(refused("{round: sky}").find("fields[2].halo.round"), std::string::npos);
    EXPECT_NE(refused("{round: []}").find("fields[2].halo.round"), std::string::npos);
    EXPECT_NE(refused("{row: 1}").find("rows"), std::string::npos);
    EXPECT_TRUE(good("opus: classicum").fields[0].halo_at_panel_edge);
}

TEST(ReadOpus, SeamsAreMitredWhereGuidesLead) {
    const std::string guides = ", guides: [[[0, 20], [600, 40]]]";
    EXPECT_TRUE(good("opus: musivum, seam: mitre" + guides).fields[0].mitred_seams);
    EXPECT_FALSE(good("opus: musivum, seam: fan" + guides).fields[0].mitred_seams);
    EXPECT_NE(refusal("opus: tessellatum, seam: mitre").find("fields[1].seam"), std::string::npos);
}

TEST(ReadOpus, FansHaveARadius) {
    EXPECT_DOUBLE_EQ(good("opus: fans, piece: 10, fan: 80").fields[0].fan_radius_mm, 80);
    EXPECT_TRUE(good("opus: fans, piece: 10, fan: 80").warnings.empty());
    // 6 to 15 widths are usual, 25 degrees of wedge the most: (10 + 1.5) / 25 degrees = 26.4 mm.
    EXPECT_EQ(good("opus: fans, piece: 10, fan: 40").warnings.size(), 1u);
    EXPECT_EQ(good("opus: fans, piece: 10, fan: 200").warnings.size(), 1u);
    EXPECT_NE(refusal("opus: fans, piece: 10, fan: 25").find("expected a radius of at least 26 mm"),
              std::string::npos)
        << refusal("opus: fans, piece: 10, fan: 25");
}

TEST(ReadOpus, PalladianumHasSizes) {
    const Layout layout = good("opus: palladianum, sizes: [20, 45]");
    EXPECT_EQ(layout.fields[0].sizes_mm, glm::dvec2(20, 45));
    // The mean area of sizes spread evenly, the integral of s^2 from 20 to 45 over 25: (45^3 - 20^3) / 75.
    EXPECT_NEAR(std::pow(layout.fields[0].piece_length_mm, 2), (45. * 45 * 45 - 20. * 20 * 20) / 75, 1e-9);
    EXPECT_NE(summarise(layout).find("pieces 20 to 45 mm"), std::string::npos) << summarise(layout);
    EXPECT_NE(refusal("opus: palladianum, sizes: [45, 20]")
                  .find("fields[1].sizes: found [45, 20] mm, "
                        "expected the smallest first"),
              std::string::npos);
    EXPECT_NE(refusal("opus: palladianum, sizes: [10, 60]").find("at most 5 times the smallest"),
              std::string::npos);
    EXPECT_NE(refusal("opus: palladianum, piece: 30, sizes: [20, 45]").find("found piece and sizes"),
              std::string::npos);
}

TEST(ReadOpus, PebblesAreSet) {
    EXPECT_FALSE(good("opus: pebbles, set: flat").fields[0].on_edge);
    EXPECT_TRUE(good("opus: pebbles, set: on edge").fields[0].on_edge);
    EXPECT_NE(refusal("opus: pebbles, set: on edges").find("did you mean on edge?"), std::string::npos);
    EXPECT_EQ(good("opus: beads, piece: 4").fields[0].piece_width_mm, 4);
    EXPECT_NE(refusal("opus: beads, piece: [6, 4]").find("found [6, 4] mm in a field of beads"),
              std::string::npos);
    EXPECT_NE(refusal("opus: pebbles, halo: 1").find("fields[1].halo"), std::string::npos);
}

TEST(ReadOpus, KeysOfAnotherOpusAreRefused) {
    for (const std::string key : {"fan: 80", "set: flat", "shapes: [[[9, 9], [99, 9], [9, 99]]]"})
        EXPECT_NE(refusal("opus: musivum, " + key).find("found it in a field of musivum"), std::string::npos)
            << key;
    EXPECT_NE(refusal("opus: sectile").find("fields[1].shapes"), std::string::npos);
}

TEST(ReadOpus, Boulders) {
    const Layout layout =
        good("opus: musivum, boulders: {material: slag, count: 5, size: [20, 50], proud share: 40 %}");
    const Boulders& b = layout.fields[0].boulders;
    EXPECT_EQ(layout.stock[b.material].name, "slag");
    EXPECT_EQ(b.count, 5);
    EXPECT_DOUBLE_EQ(b.size_mm.y, 50);
    EXPECT_DOUBLE_EQ(b.proud, 0.4);
    EXPECT_NE(refusal("boulders: {material: slagg, count: 5}").find("did you mean slag?"), std::string::npos);
    EXPECT_NE(refusal("boulders: {material: slag}").find("count"), std::string::npos);
    EXPECT_NE(refusal("boulders: {material: slag, count: 3, size: [50, 20]}").find("smallest first"),
              std::string::npos);
    EXPECT_NE(refusal("boulders: {material: slag, count: 3, sise: [20, 50]}").find("did you mean size?"),
              std::string::npos);
}

TEST(ReadOpus, ShapesWithAndWithoutMaterial) {
    const Layout layout = good(
        "opus: sectile, joint: 0.5, shapes: [[[9, 9], [99, 9], [9, 99]], {outline: {smooth: [[200, 100], "
        "[300, "
        "100], [250, 200]]}, material: coral}, {smooth: [[400, 100], [500, 100], [450, 200]]}]");
    const auto& shapes = layout.fields[0].shapes;
    ASSERT_EQ(shapes.size(), 3u);
    EXPECT_FALSE(shapes[0].material);
    EXPECT_EQ(layout.stock[shapes[1].material.value()].name, "coral");
    EXPECT_TRUE(shapes[1].outline.smooth);
    EXPECT_TRUE(shapes[2].outline.smooth);
    EXPECT_TRUE(layout.warnings.empty()) << layout.warnings[0];
}

TEST(ReadOpus, ShapesThatOverlapOrLeaveTheFieldAreSaidWithTheirPlace) {
    // Two squares that share [90, 90] to [100, 100].
    const std::string over = refusal(
        "opus: sectile, joint: 0.5, shapes: [[[50, 50], [100, 50], [100, 100], [50, 100]], [[90, 90], [150, "
        "90], "
        "[150, 150], [90, 150]]]");
    EXPECT_NE(over.find("fields[1].shapes[2]: found a shape over shapes[1] near [95.0, 95.0] mm"),
              std::string::npos)
        << over;
    const std::string outside = refusal(
        "opus: sectile, joint: 0.5, outline: [[0, 0], [200, 0], [200, 200], [0, 200]], shapes: [[[150, 50], "
        "[250, "
        "50], [250, 100], [150, 100]]]");
    EXPECT_NE(outside.find("leaves its field near [225.0, 75.0] mm"), std::string::npos) << outside;
    // Shapes drawn edge to edge share their line and no ground.
    EXPECT_TRUE(
        good("opus: sectile, joint: 0.5, shapes: [[[50, 50], [100, 50], [100, 100], [50, 100]], [[100, "
             "50], [150, 50], [150, 100], [100, 100]]]")
            .warnings.empty());
    EXPECT_NE(
        refusal("opus: sectile, shapes: [[[0, 0], [100, 100], [100, 0], [0, 90]]]").find("crosses itself"),
        std::string::npos);
    EXPECT_NE(refusal("opus: sectile, shapes: []").find("expected a list of outlines"), std::string::npos);
}

TEST(ReadOpus, CutterWarnsOfTightTurnsAndThinTabs) {
    // A sharp inside corner at [100, 100]; a tab 4 mm wide in stone of 10; joints too wide for the opus.
    const auto notch = good(
        "opus: sectile, joint: 0.5, shapes: [[[50, 50], [150, 50], [150, 100], [100, 100], [100, 150], [50, "
        "150]]]");
    ASSERT_EQ(notch.warnings.size(), 1u);
    EXPECT_NE(notch.warnings[0].find("inside turn under 2.5 mm radius near [100"), std::string::npos)
        << notch.warnings[0];
    const auto tab = good(
        "opus: sectile, joint: 0.5, thickness: 10, shapes: [{smooth: [[50, 50], [150, 50], [150, 100], [50, "
        "100]]}, [[200, 100], [300, 100], [300, 103], [200, 103]]]");
    ASSERT_EQ(tab.warnings.size(), 1u);
    EXPECT_NE(tab.warnings[0].find("a tab narrower than the 10 mm"), std::string::npos) << tab.warnings[0];
    EXPECT_EQ(good("opus: sectile, joint: 3, shapes: [[[9, 9], [99, 9], [9, 99]]]").warnings.size(), 1u);
}

TEST(ReadOpus, CheckPrintsDefinitions) {
    const std::string text = summarise(good("opus: classicum"));
    EXPECT_NE(text.find("classicum: one or more halo rows"), std::string::npos);
    EXPECT_EQ(text.find("regulatum:"), std::string::npos);
}

}  // namespace
}  // namespace rakelight
