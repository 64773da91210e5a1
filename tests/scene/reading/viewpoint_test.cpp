// Viewpoints as they are written: who looks, walks past, lenses and perspectives.
#include <gtest/gtest.h>

#include "scene/model/eye_heights.h"
#include "scene/model/layout.h"
#include "scene/model/viewpoint.h"
#include "scene/reading/layout_reader.h"
#include "tests/support/refusal.h"

namespace rakelight {
namespace {

Layout read(const std::string& viewpoints, const std::string& rest = "") {
    return read_layout_text(
        "panel: {size: [600, 450]}\nfields: [{name: all, mix: slate}]\n"
        "room: {size: [5000, 6000, 3000]}\nviewpoints:\n  - {" +
            viewpoints + "}\n" + rest,
        "t.yaml");
}

std::string refusal(const std::string& viewpoints) {
    return refusal_of([&] { read(viewpoints); });
}

}  // namespace

// Standing 160 cm: Canadian Conservation Institute, Notes 2/3. Ranges of the others: eye_heights.h.
TEST(ReadViewpoint, EyesAreAsHighAsWhoLooks) {
    struct Range {
        const char* who;
        double low_mm, high_mm;
    };
    for (const auto& [who, low, high] : {Range{"standing", 1600, 1600},
                                         {"seated", 1150, 1250},
                                         {"wheelchair", 1090, 1295},
                                         {"child", 1000, 1250}}) {
        const Layout layout = read(std::string("name: v, eyes: ") + who + ", distance: 1800, sideways: -300");
        EXPECT_GE(layout.views.viewpoints[0].eye_mm.y, low) << who;
        EXPECT_LE(layout.views.viewpoints[0].eye_mm.y, high) << who;
        EXPECT_EQ(layout.views.viewpoints[0].eye_mm.x, -300);
        EXPECT_EQ(layout.views.viewpoints[0].eye_mm.z, 1800);
        EXPECT_EQ(layout.views.viewpoints[0].look_at_mm, glm::dvec3(0, 1450, 0));
    }
    EXPECT_EQ(eye_height_mm("lying"), 0);
}

TEST(ReadViewpoint, AWalkPastIsSomeStepsOfEvenLength) {
    const Layout layout =
        read("name: past, eyes: standing, distance: 1500, walk past: {from: -1200, to: 800, steps: 5}",
             "pictures:\n  - {name: walk, viewpoint: past}\n  - {name: third, viewpoint: past 3}\n");
    ASSERT_EQ(layout.views.viewpoints.size(), 5u);
    for (int i = 0; i < 5; ++i) {
        const Viewpoint& view = layout.views.viewpoints[static_cast<std::size_t>(i)];
        EXPECT_EQ(view.name, "past " + std::to_string(i + 1));
        EXPECT_EQ(view.walk, "past");
        EXPECT_DOUBLE_EQ(view.eye_mm.x, -1200 + 500 * i);
        EXPECT_EQ(view.eye_mm.y, 1600);
        EXPECT_EQ(view.eye_mm.z, 1500);
    }
    ASSERT_EQ(layout.views.pictures.size(), 6u);
    EXPECT_EQ(layout.views.pictures[0].name, "walk 1");
    EXPECT_EQ(layout.views.pictures[4].viewpoint, "past 5");
    EXPECT_EQ(layout.views.pictures[5].name, "third");
}

// The angle across the long side of 36 x 24 mm film is 2 atan(36 / (2 f)): 39.60 degrees at 50 mm, 23.91 at
// 85, 54.43 at 35.
TEST(ReadViewpoint, ALensSeesItsAngle) {
    struct Lens {
        const char* mm;
        double deg;
    };
    for (const auto& [mm, deg] : {Lens{"50", 39.60}, {"85", 23.91}, {"35", 54.43}})
        for (const char* perspective : {"natural", "upright", "square"}) {
            const Layout layout =
                read(std::string("name: v, distance: 1800, sideways: 700, height: 1100, focal length: ") +
                     mm + " mm, perspective: " + perspective);
            const Viewpoint& view = layout.views.viewpoints[0];
            const double seen = 2 * std::atan(view.view_width_mm / 2 / view_distance_mm(view));
            EXPECT_NEAR(glm::degrees(seen), deg, 0.01) << mm << perspective;
        }
}

// A camera held upright has the film's short side across.
TEST(ReadViewpoint, ALensOfAnUprightPicture) {
    const Layout layout = read("name: v, distance: 2000, height: 1450, focal length: 50",
                               "pictures: [{name: p, viewpoint: v, size: [800, 1200]}]\n");
    EXPECT_NEAR(layout.views.viewpoints[0].view_width_mm, 2000.0 * 24 / 50, 1e-9);
}

TEST(ReadViewpoint, MistakesSayWhereAndWhat) {
    struct Case {
        const char *text, *words;
    };
    for (const Case& c :
         {Case{"name: v, eyes: standig", "eyes: found \"standig\""},
          {"name: v, eyes: standig", "did you mean standing?"},
          {"name: v, eyes: seated, height: 1500", "found height with eyes"},
          {"name: v, eyes: seated, eye: [0, 1500, 900]", "found eyes with eye"},
          {"name: v, eye: [0, 1500, 900], walk past: {from: 0, to: 1}", "found walk past with eye"},
          {"name: v, sideways: 20, walk past: {from: -900, to: 900}", "found sideways with walk past"},
          {"name: v, walk past: {from: -900}", "walk past.to: found nothing"},
          {"name: v, walk past: {from: -900, to: 900, steps: 1}", "expected 2 to 99"},
          {"name: v, walk past: {from: -900, to: 9000}",
           "walk past: found [4050, 1450, 1312.5] outside the room"},
          {"name: v, walk past: 3", "found \"3\", expected a mapping"},
          {"name: v, focal length: 0", "expected 4 to 2000"},
          {"name: v, focal length: 50, view width: 900", "found view width with focal length"},
          {"name: v, perspective: strait", "expected one of natural, upright, square"},
          {"name: v, eye: [0, 2900, 300], look at: [0, 100, 290], perspective: upright",
           "more than 70 degrees up or down"},
          {"name: v, eye: [2000, 1450, 300], look at: [0, 1450, 0], perspective: square",
           "more than 70 degrees aside"},
          {"name: v, eye: [0, 1500, -20]", "eye: found [0, 1500, -20] behind the wall"},
          {"name: past 1}\n  - {name: past, walk past: {from: -900, to: 900}",
           "found a step called \"past 1\" again"}})
        EXPECT_NE(refusal(c.text).find(c.words), std::string::npos) << c.text << "\n" << refusal(c.text);
    const std::string once = refusal("name: v, walk past: {from: -9000, to: 9000}");
    EXPECT_EQ(std::count(once.begin(), once.end(), '\n'), 0) << once;  // one mistake, one problem
}

TEST(ReadViewpoint, NobodyStandsInFurniture) {
    const std::string said = refusal_of([] {
        read_layout_text(
            "panel: {size: [600, 450]}\nfields: [{name: all, mix: slate}]\n"
            "room: {furniture: [{name: column, at: [0, 0, 1500], size: [300, 2900, 300]}]}\n"
            "viewpoints: [{name: past, distance: 1500, walk past: {from: -900, to: 900}}]\n",
            "t.yaml");
    });
    EXPECT_NE(said.find("walk past: found [0, 1450, 1500] inside column"), std::string::npos) << said;
}

}  // namespace rakelight
