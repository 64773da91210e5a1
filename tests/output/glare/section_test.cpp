// The section `glare` of a layout file, and all that can be wrong with it.
#include "output/glare/section.h"

#include <gtest/gtest.h>

#include "scene/reading/layout_reader.h"

namespace rakelight {
namespace {

const std::string kRoom =
    "panel: {size: [600, 400]}\n"
    "fields:\n"
    "  - {name: foam, outline: [[0, 0], [200, 0], [200, 400], [0, 400]], mix: foam-white}\n"
    "  - {name: sea, mix: deep-teal}\n"
    "room: {size: [5000, 6000, 2800], furniture: [{name: shelf, at: [0, 0, 3000], size: [600, 2600, 300]}]}\n"
    "lamps:\n"
    "  - {name: spot, at: [0, 2700, 900], aim: [0, 1450, 0], lumen: 700}\n"
    "  - {name: ceiling, form: flat panel, at: [0, 2790, 2000], aim: [0, 0, 2000], width: 600, lumen: 2000}\n"
    "  - {name: globe, form: bulb, at: [1500, 2300, 1500], lumen: 500}\n";

GlareSection read(const std::string& glare) {
    const std::string text = kRoom + glare;
    return read_glare_section(read_layout_text(text, "foyer.yaml"));
}

// Every problem that the section has, one a line.
std::string problems(const std::string& glare) {
    try {
        read(glare);
    } catch (const LayoutError& error) {
        return error.what();
    }
    return "";
}

void expect_problem(const std::string& glare, const std::string& part) {
    EXPECT_NE(problems(glare).find(part), std::string::npos)
        << glare << "\ngave " << problems(glare) << "\nwithout " << part;
}

TEST(GlareSection, HasUsualLimitsAndALeanToTry) {
    const GlareSection section = read("");
    EXPECT_EQ(section.limits.bright_ratio, 10);
    EXPECT_EQ(section.limits.bright_spot_deg, 2);
    ASSERT_TRUE(section.move.lean_deg);
    EXPECT_EQ(section.move.lean_deg->y, 8);
    EXPECT_TRUE(section.move.lamps.empty());
}

TEST(GlareSection, ReadsWhatItSays) {
    const GlareSection section = read(
        "glare:\n"
        "  bright ratio: 8\n"
        "  dazzling ratio: 40\n"
        "  patch ratio: 0.8\n"
        "  bright spot: 1.5\n"
        "  sparkles: [3, 20]\n"
        "  veil ratio: 1.8\n"
        "  rating: 16\n"
        "  contrast: [[foam, sea]]\n"
        "  move:\n"
        "    lamps:\n"
        "      spot: {from: [0, 2700, 700], to: [0, 2700, 1300], aim: {from: [0, 1300, 0], to: [0, 1500, "
        "0]}}\n"
        "      ceiling: {from: [0, 2790, 1000], to: [0, 2790, 2400]}\n"
        "      globe: {from: [1500, 2300, 1500], to: [150 cm, 2300, 4000]}\n"
        "    lean: [1, 5]\n"
        "    height: [1400, 1500]\n"
        "    keep: {lux: [150, 400], evenness: 30 %}\n");
    EXPECT_EQ(section.limits.bright_ratio, 8);
    EXPECT_EQ(section.limits.dazzling_ratio, 40);
    EXPECT_EQ(section.limits.patch_ratio, 0.8);
    EXPECT_EQ(section.limits.most_sparkles_per_m2, 20);
    EXPECT_EQ(section.limits.veil_ratio, 1.8);
    EXPECT_EQ(section.limits.rating, 16);
    ASSERT_EQ(section.contrast.size(), 1u);
    EXPECT_EQ(section.contrast[0].second, "sea");
    ASSERT_EQ(section.move.lamps.size(), 3u);
    EXPECT_EQ(section.move.lamps[0].aim, AimGoes::swept);
    EXPECT_EQ(section.move.lamps[0].aim_from_mm.y, 1300);
    EXPECT_EQ(section.move.lamps[1].aim, AimGoes::along);  // it looks at the floor
    EXPECT_EQ(section.move.lamps[2].to_mm.x, 1500);
    EXPECT_EQ(section.move.height_mm->x, 1400);
    EXPECT_EQ(section.move.keep->lux.y, 400);
    EXPECT_EQ(section.move.keep->evenness, 0.3);
}

TEST(GlareSection, ALampThatLightsThePanelStaysAimedAtIt) {
    EXPECT_EQ(read("glare: {move: {lamps: {spot: {from: [0, 2700, 700], to: [0, 2700, 1300]}}}}\n")
                  .move.lamps[0]
                  .aim,
              AimGoes::kept);
}

TEST(GlareSection, RefusesWhatCannotBe) {
    const auto move = [](const std::string& text) { return "glare: {move: {" + text + "}}\n"; };
    expect_problem(
        move("lamps: {spott: {from: [0, 2700, 700], to: [0, 2700, 1300]}}"),
        "glare.move.lamps.spott: found \"spott\", expected the name of a lamp; did you mean spot?");
    expect_problem(move("lamps: {spot: {from: [0, 2700, 700], to: [0, 2700, -300]}}"), "behind the wall");
    expect_problem(move("lamps: {spot: {from: [0, 2700, 700], to: [4000, 2700, 700]}}"), "outside the room");
    expect_problem(move("lamps: {spot: {from: [0, 2500, 700], to: [0, 2500, 5000]}}"), "inside shelf");
    expect_problem(move("lamps: {spot: {from: [0, 2700, 700]}}"), "expected where the track ends");
    expect_problem(move("lamps: {spot: {}}"), "expected from and to, or an aim");
    expect_problem(move("lamps: {globe: {from: [0, 2700, 700], to: [0, 2700, 900], aim: kept}}"),
                   "which shines all round");
    expect_problem(move("lean: [5, 2]"), "glare.move.lean: found from 5 to 2, expected the smaller number");
    expect_problem(move("height: [1500, 1400]"), "expected the smaller number first");
    expect_problem(move("height: [100, 1400]"), "between floor and ceiling");
    expect_problem(move("height: [1400, 3000]"), "between floor and ceiling");
    expect_problem(move("lean: [0, 45]"), "glare.move.lean");
    expect_problem(move("keep: {lux: [400, 150]}, lean: [0, 4]"), "glare.move.keep.lux");
    expect_problem(move("keep: {lux: [100, 150]}"), "nothing that may move");
    expect_problem(move("tilt: [0, 4]"), "glare.move.tilt");
}

TEST(GlareSection, RefusesLimitsAndPairsThatMakeNoSense) {
    expect_problem("glare: {bright ratio: 20, dazzling ratio: 15}\n",
                   "expected at least the 20 of bright ratio");
    expect_problem("glare: {veil ratio: 1}\n", "glare.veil");
    expect_problem("glare: {sparkles: [30, 5]}\n", "expected the smaller number first");
    expect_problem("glare: {contrast: [[foam, see]]}\n", "did you mean sea?");
    expect_problem("glare: {contrast: [[foam, foam]]}\n", "expected two");
    expect_problem("glare: {contrast: [foam, sea]}\n", "expected two fields, as in");
    expect_problem("glare: {brigth spot: 3}\n", "did you mean bright spot?");
    expect_problem("glare: 5\n", "glare");
}

TEST(GlareSection, TellsAllProblemsAtOnce) {
    const std::string all = problems("glare: {bright ratio: no, bright spot: -1, move: {lean: [3, 1]}}\n");
    EXPECT_EQ(std::count(all.begin(), all.end(), '\n'), 2);
}

}  // namespace
}  // namespace rakelight
