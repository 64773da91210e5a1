// Stacks, ladders, finishes and leaf, from the layout file to the material.
#include "scene/reading/stock/treatment.h"
#include "scene/model/layout.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "materials/stock/finish.h"
#include "materials/stock/glass_stack.h"
#include "materials/stock/stock.h"
#include "materials/stock/tints.h"
#include "scene/forms/relief.h"
#include "scene/reading/layout_reader.h"
#include "tests/support/refusal.h"

namespace rakelight {
namespace {

Layout read(const std::string& stock, const std::string& mix, const std::string& more = "") {
    return read_layout_text(
        "panel: {size: [600, 450]}\nfields: [{name: all, mix: " + mix + more + "}]\nstock:\n" + stock,
        "f.yaml");
}

const Material& stock_of(const Layout& layout, const std::string& name) {
    for (const Material& m : layout.stock)
        if (m.name == name) return m;
    throw std::logic_error(name + " is not in the layout's stock");
}

Material read_material(const std::string& entry) {
    return stock_of(read("  mine: " + entry + "\n", "mine"), "mine");
}

TEST(ReadTreatment, AStackIsFused) {
    const Material m = read_material(
        "{stack: [{glass: deep-teal, thickness: 3}, {glass: clear, thickness: 3 mm}, {glass: clear, "
        "thickness: 0.3 cm}]}");
    EXPECT_EQ(m.thickness_mm, 6);
    EXPECT_FALSE(m.opaque);
    // Transmittances multiply, and 9 mm spread to 6: T to the power of 2/3.
    const double teal = find_stock("deep-teal")->absorption_per_mm[4],
                 clear = find_stock("clear")->absorption_per_mm[4];
    double depth = 6 * m.absorption_per_mm[4];
    EXPECT_NEAR(depth, (3 * teal + 6 * clear) * 2 / 3, 1e-5);
    const Material held = read_material(
        "{stack: [{glass: deep-teal, thickness: 6}, {glass: clear, thickness: 6}], firing: dammed}");
    EXPECT_EQ(held.thickness_mm, 12);
}

TEST(ReadTreatment, AStackMayHoldAnEarlierStackAndBeFinished) {
    const Layout layout = read(
        "  two: {stack: [{glass: aqua, thickness: 2}, {glass: opal, thickness: 2}]}\n"
        "  three: {stack: [{glass: ruby, thickness: 1}, {glass: two, thickness: 4}], finish: sandblasted}\n",
        "three");
    const Material& m = stock_of(layout, "three");
    EXPECT_EQ(m.sheets.size(), 3u);
    EXPECT_EQ(m.thickness_mm, 5);
    EXPECT_GE(m.roughness, 0.5f);
}

TEST(ReadTreatment, ALadderGivesNumberedShades) {
    const Layout layout = read("  sea: {ladder: {from: deep-teal, to: aqua, steps: 3}}\n",
                               "{sea-1: 40 %, sea-2: 30 %, sea-3: 30 %}");
    const auto shade = [&](const std::string& name) { return stock_of(layout, name); };
    const SampledSpectrum first = find_stock("deep-teal")->absorption_per_mm,
                          last = find_stock("aqua")->absorption_per_mm;
    EXPECT_EQ(shade("sea-1").absorption_per_mm, first);
    EXPECT_EQ(shade("sea-3").absorption_per_mm, last);
    EXPECT_NEAR(shade("sea-2").absorption_per_mm[7], (first[7] + last[7]) / 2, 1e-6);
    const Layout grey = read("  sea: {ladder: {from: jet, to: foam-white}}\n", "sea-5");
    EXPECT_EQ(stock_of(grey, "sea-5").reflectance, find_stock("foam-white")->reflectance);
}

TEST(ReadTreatment, FinishesGoOnInTurn) {
    const Material& stone = *find_stock("basalt");
    EXPECT_EQ(read_material("{like: basalt, finish: wet}").reflectance,
              finished(stone, Finish::wet).reflectance);
    const Material both = read_material("{like: basalt, finish: [sealed, hazed]}");
    EXPECT_FLOAT_EQ(both.index, 1.49f);
    EXPECT_GT(both.haze, 0);
    EXPECT_EQ(read_material("{like: pumice, pores: 30 %}").reflectance,
              porous(*find_stock("pumice"), 0.3).reflectance);
}

TEST(ReadTreatment, AFinishLeavesThePieceItsShape) {
    for (const char* stuff : {"basalt", "slate", "limestone", "aqua", "pumice", "river-stone", "slag"})
        for (const std::string& word : finish_words()) {
            if (word == "raw") continue;  // of timber alone
            EXPECT_EQ(face_kind(read_material(std::string("{like: ") + stuff + ", finish: " + word + "}")),
                      face_kind(*find_stock(stuff)))
                << stuff << ' ' << word;
        }
}

TEST(ReadTreatment, AFramesBarsHaveAFinishOfTheirOwn) {
    const auto frame_of = [](const std::string& frame) {
        const Layout layout =
            read_layout_text("panel: {size: [600, 450], substrate: {material: oak}, frame: " + frame +
                                 "}\nfields: [{name: all, mix: slate}]\n",
                             "f.yaml");
        EXPECT_EQ(layout.stock[layout.panel.substrate.material].name, "oak");
        return layout.stock[layout.panel.frame->material];
    };
    EXPECT_EQ(frame_of("{width: 20}").name, "oak");
    const Material raw = frame_of("{finish: raw}");
    EXPECT_EQ(raw.name, "oak, raw");
    EXPECT_EQ(raw.reflectance, finished(*find_stock("oak"), Finish::raw).reflectance);
    EXPECT_EQ(frame_of("{material: dark-oak, finish: [oiled, waxed]}").name, "dark-oak, oiled and waxed");
    try {
        frame_of("{material: slate, finish: raw}");
        FAIL() << "slate is not raw";
    } catch (const LayoutError& error) {
        EXPECT_NE(std::string(error.what()).find("found raw of slate, expected a timber"), std::string::npos)
            << error.what();
    }
}

TEST(ReadTreatment, TintsTakeFinishes) {
    const Layout layout = read_layout_text(
        "panel: {size: [600, 450]}\nfields: [{name: all, mix: slate, grout: joint}]\n"
        "tints: {joint: {like: charcoal, finish: sealed}}\n",
        "f.yaml");
    const auto joint =
        std::find_if(layout.tints.begin(), layout.tints.end(), [](auto& m) { return m.name == "joint"; });
    ASSERT_NE(joint, layout.tints.end());
    EXPECT_EQ(joint->reflectance, finished(*find_tint("charcoal"), Finish::sealed).reflectance);
}

TEST(ReadTreatment, LeafUnderGlassAndOnStone) {
    const Material gold =
        read_material("{like: clear, thickness: 6, leaf: gold, leaf depth: 0.8, leaf roughness: 0.1}");
    EXPECT_EQ(gold.leaf, Leaf::gold);
    EXPECT_FLOAT_EQ(gold.leaf_depth_mm, 0.8f);
    EXPECT_FLOAT_EQ(gold.leaf_roughness, 0.1f);
    EXPECT_EQ(read_material("{like: slate, leaf: silver}").leaf, Leaf::silver);
}

struct BadCase {
    const char* entry;
    const char* key;
    const char* words;
};

TEST(ReadTreatment, RefusesNonsenseWithItsPlace) {
    const BadCase cases[] = {
        {"{stack: []}", "stock.mine.stack", "found an empty list"},
        {"{stack: aqua}", "stock.mine.stack", "expected a list of mappings"},
        {"{stack: [{glass: aqua}]}", "stock.mine.stack[1].thickness", "found nothing"},
        {"{stack: [{thickness: 3}]}", "stock.mine.stack[1].glass", "found nothing"},
        {"{stack: [{glass: aqau, thickness: 3}]}", "stock.mine.stack[1].glass", "did you mean aqua?"},
        {"{stack: [{glass: slate, thickness: 3}]}", "stock.mine.stack[1].glass", "no glass"},
        {"{stack: [{glass: aqua, thickness: 0}]}", "stock.mine.stack[1].thickness", "expected 0.2 to 50 mm"},
        {"{stack: [{glass: aqua, thickness: -3}]}", "stock.mine.stack[1].thickness", "expected 0.2 to 50 mm"},
        {"{stack: [{glass: aqua, thickness: 3, colour: 1}]}", "stock.mine.stack[1].colour", "unknown"},
        {"{stack: [{glass: aqua, thickness: 0.3}]}", "stock.mine.stack", "thinner than 0.5"},
        {"{stack: [{glass: aqua, thickness: 3}], thickness: 4}", "stock.mine.thickness",
         "expected its sheets"},
        {"{stack: [{glass: aqua, thickness: 3}], like: ruby}", "stock.mine.like", "expected its sheets"},
        {"{stack: [{glass: aqua, thickness: 3}], firing: fre}", "stock.mine.firing", "did you mean free?"},
        {"{ladder: 5}", "stock.mine.ladder", "expected a mapping"},
        {"{ladder: {from: aqua}}", "stock.mine.ladder.to", "found nothing"},
        {"{ladder: {from: aqua, to: rubi}}", "stock.mine.ladder.to", "did you mean ruby?"},
        {"{ladder: {from: aqua, to: jet}}", "stock.mine.ladder.to", "found an opaque glass"},
        {"{ladder: {from: aqua, to: slate}}", "stock.mine.ladder.to", "no glass"},
        {"{ladder: {from: aqua, to: ruby, steps: 1}}", "stock.mine.ladder.steps", "expected 2 to 99"},
        {"{ladder: {from: aqua, to: ruby, steps: 2.5}}", "stock.mine.ladder.steps", "whole number"},
        {"{ladder: {from: aqua, to: ruby, stepz: 3}}", "stock.mine.ladder.stepz", "did you mean steps?"},
        {"{ladder: {from: aqua, to: ruby}, thickness: 3}", "stock.mine.thickness", "does not go with"},
        {"{like: slate, finish: wett}", "stock.mine.finish", "did you mean wet?"},
        {"{like: slate, finish: [wet, [dry]]}", "stock.mine.finish[2]", "found a list of 1"},
        {"{like: slate, finish: {wet: 1}}", "stock.mine.finish", "expected one of wet"},
        {"{like: slate, finish: [wet, wet, wet, wet, wet, wet, wet]}", "stock.mine.finish", "at most 6"},
        {"{like: aqua, pores: 20 %}", "stock.mine.pores", "translucent"},
        {"{like: slate, pores: 95 %}", "stock.mine.pores", "expected 0"},
        {"{like: aqua, leaf: glod}", "stock.mine.leaf", "did you mean gold?"},
        {"{like: aqua, leaf depth: 1}", "stock.mine.leaf depth", "without leaf"},
        {"{like: aqua, leaf roughness: 0.1}", "stock.mine.leaf roughness", "without leaf"},
        {"{like: aqua, leaf: gold, leaf roughness: 0}", "stock.mine.leaf roughness", "expected 0.01"},
        {"{like: slate, leaf: gold, leaf depth: 1}", "stock.mine.leaf depth", "lies on top"},
        {"{stack: [{glass: aqua, thickness: 3}, {glass: jet, thickness: 3}], leaf: gold}", "stock.mine.leaf",
         "opaque sheet"},
    };
    for (const BadCase& c : cases) {
        const std::string text = refusal_of([&] { read(std::string("  mine: ") + c.entry + "\n", "slate"); });
        for (const std::string& part :
             {std::string(c.key) + ": ", std::string(c.words), std::string("f.yaml:4:")})
            EXPECT_NE(text.find(part), std::string::npos) << c.entry << '\n' << text;
    }
}

TEST(ReadTreatment, RefusesALadderThatTakesANameInUseAndLeafOnGrout) {
    EXPECT_THROW(read("  sea-2: {like: aqua}\n  sea: {ladder: {from: aqua, to: ruby}}\n", "slate"),
                 LayoutError);
    EXPECT_THROW(read_layout_text("panel: {size: [600, 450]}\nfields: [{name: all, mix: slate}]\n"
                                  "tints: {joint: {like: charcoal, leaf: gold}}\n",
                                  "f.yaml"),
                 LayoutError);
}

}  // namespace
}  // namespace rakelight
