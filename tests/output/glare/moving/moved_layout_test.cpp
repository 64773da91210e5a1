// A layout file with things moved, read back; and the advice in words.
#include "output/glare/moving/moved_layout.h"
#include "scene/model/layout.h"

#include <gtest/gtest.h>

#include <fstream>

#include "output/glare/moving/move_words.h"
#include "output/system/errors.h"
#include "scene/reading/layout_reader.h"
#include "tests/support/test_film.h"

namespace rakelight {
namespace {

using test::Folder;

const std::string kHead =
    "# Of my own.\n"
    "panel: {size: [600, 400]}   # naïve comment, two bytes\n"
    "fields: [{name: all, mix: deep-teal}]\n";
const std::string kLamps =
    "lamps:\n"
    "  - {name: spot, at: [0, 2700, 900], aim: [0, 1450, 0], lumen: 700}   # bought in spring\n"
    "  - name: wash\n"
    "    form: flat panel\n"
    "    at:\n"
    "      - -500\n"
    "      - 270 cm\n"
    "      - 2000\n"
    "    aim: [\"-500\", 0, 2000]\n"
    "    lumen: 900\n";

struct Sample {
    Folder folder;
    Layout layout;
    std::string text;
    explicit Sample(const std::string& room) : text(kHead + room + kLamps) {
        std::ofstream(folder / "a.yaml") << text;
        layout = read_layout(folder / "a.yaml");
    }
    Arrangement now() const {
        return {layout.panel.lean_deg, layout.panel.centre_height_mm, layout.on.lamps};
    }
    Layout moved(const Arrangement& how) const {
        return read_layout_text(moved_layout_text(layout, how), "b.yaml");
    }
};

TEST(MovedLayout, ChangesTheNumbersAndNothingElse) {
    const Sample sample("room: {size: [5000, 6000, 2800], lean: 1}\n");
    Arrangement how = sample.now();
    EXPECT_EQ(moved_layout_text(sample.layout, how), sample.text);
    how.lamps[0].at_mm.z = 1250;
    how.lean_deg = 4.5;
    std::string expected = sample.text;
    expected.replace(expected.find("2700, 900]"), 10, "2700, 1250]");
    expected.replace(expected.find("lean: 1"), 7, "lean: 4.5");
    EXPECT_EQ(moved_layout_text(sample.layout, how), expected);
}

TEST(MovedLayout, WritesWhereNothingWasSaid) {
    for (const std::string room :
         {"", "room: {size: [5000, 6000, 2800]}\n", "room:\n  # high\n  size: [5000, 6000, 2800]\n"}) {
        const Sample sample(room);
        Arrangement how = sample.now();
        how.lean_deg = 3;
        how.height_mm = 1400;
        const Layout then = sample.moved(how);
        EXPECT_EQ(then.panel.lean_deg, 3) << room;
        EXPECT_EQ(then.panel.centre_height_mm, 1400) << room;
    }
}

TEST(MovedLayout, FindsPlacesInEveryStyle) {
    const Sample sample("room: {size: [5000, 6000, 2800]}\n");
    Arrangement how = sample.now();
    how.lamps[1].at_mm = {-500, 2700, 3100};
    how.lamps[1].aim_mm = {-500, 0, 3100};
    const Layout then = sample.moved(how);
    EXPECT_EQ(then.on.lamps[1].at_mm, how.lamps[1].at_mm);
    EXPECT_EQ(then.on.lamps[1].aim_mm, how.lamps[1].aim_mm);
    EXPECT_NE(moved_layout_text(sample.layout, how).find("# bought in spring"), std::string::npos);
}

TEST(MovedLayout, RefusesLampsThatTheFileDoesNotPlace) {
    const Sample sample("room: {size: [5000, 6000, 2800]}\n");
    Arrangement how = sample.now();
    Layout other = sample.layout;
    other.on.lamps[0].name = how.lamps[0].name = "of a set-up";
    how.lamps[0].at_mm.z += 100;
    EXPECT_THROW(moved_layout_text(other, how), RequestError);
    EXPECT_THROW(check_moved_path(sample.layout, sample.layout.sources.path), RequestError);
}

TEST(MoveWords, SayWhatToDoOnALadder) {
    const Sample sample("room: {size: [5000, 6000, 2800]}\n");
    MoveBounds bounds;
    bounds.lamps.push_back({"wash", {}, {}, AimGoes::along});
    bounds.lamps.push_back({"spot", {}, {}, AimGoes::swept});
    MoveChoice choice;
    choice.how = sample.now();
    choice.how.lamps[1].at_mm += glm::dvec3(100, 0, -600);
    choice.how.lamps[1].aim_mm += glm::dvec3(100, 0, -600);
    choice.how.lamps[0].aim_mm.y -= 200;
    choice.how.lean_deg = 4;
    choice.how.height_mm -= 50;
    choice.changed = {0, 1, 2, 3};
    const auto advice = advice_for(sample.layout, choice, bounds);
    ASSERT_EQ(advice.size(), 4u);
    EXPECT_EQ(advice[0], "Move wash by 60 cm towards the panel's wall and 10 cm to the right.");
    EXPECT_EQ(advice[1], "Aim spot at 20 cm below the middle of the panel.");
    // 400 mm times the sine of 4 degrees.
    EXPECT_EQ(advice[2], "Lean the top of the panel forward by 4 degrees (now 0): 28 mm over its height.");
    EXPECT_EQ(advice[3], "Hang the panel 5 cm lower, its middle 140.0 cm above the floor.");
    const auto keys = keys_for(sample.layout.on, choice, bounds);
    EXPECT_EQ(keys[0], "room: lean: 4");
    EXPECT_EQ(keys[2], "lamps: wash: at: [-400, 2700, 1400]");
}

}  // namespace
}  // namespace rakelight
