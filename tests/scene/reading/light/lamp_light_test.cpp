// Keys of lamps: what is read, and what is refused where and in which words.
#include <gtest/gtest.h>

#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"
#include "scene/reading/summary.h"
#include "scene/text/diagnostics.h"
#include "tests/support/lamp_samples.h"
#include "tests/support/refusal.h"
#include "tests/support/test_folder.h"

namespace rakelight {
namespace {

class ReadLampLight : public testing::Test {
  protected:
    void SetUp() override {
        folder_.write("good.ies",
                      FileMaker{.opening = "-.2 -.2 0", .vertical = {0, 45, 90}, .horizontal = {0}}.text(
                          [](double v, double) { return 90 - v; }));
        folder_.write("bad.ies", "IES:LM-63-2019\nTILT=NONE\n1 -1 1 2 1 1 2 0 0 0 1 1 1\n0 80\n0\n1 x\n");
        folder_.write("curve.csv", "nm,power\n# made up\n400,1\n500,3\n600,2\n700,0\n");
    }

    Layout read(const std::string& lamp) const {
        return read_layout_text(
            "panel: {size: [600, 450]}\nfields: [{name: all, mix: slate}]\nlamps:\n  - {name: a, " + lamp +
                "}\n",
            (folder_ / "t.yaml").string());
    }
    std::string refused(const std::string& lamp) const {
        return refusal_of([&] { read(lamp); });
    }
    void expect_said(const std::string& lamp, const std::string& words) const {
        const std::string said = refused(lamp);
        EXPECT_NE(said.find(words), std::string::npos) << lamp << "\n-- said: " << said;
    }

    test::Folder folder_;
    const std::string there_ = "at: [0, 2900, 900], aim: [0, 1450, 0], ";
};

}  // namespace

TEST_F(ReadLampLight, PhotometricFiles) {
    const Lamp lamp = read(there_ + "photometry: good.ies").on.lamps[0];
    EXPECT_EQ(lamp.form, LampForm::measured);
    ASSERT_TRUE(lamp.measured);
    EXPECT_EQ(lamp.lumen, 0);
    EXPECT_NE(summarise(read(there_ + "photometry: good.ies")).find("by its file"), std::string::npos);
    EXPECT_EQ(read(there_ + "photometry: good.ies, lumen: 800, turn: 30").on.lamps[0].lumen, 800);
    expect_said(there_ + "photometry: gone.ies", "lamps[1].photometry: found no file");
    expect_said(there_ + "photometry: bad.ies", "bad.ies:6:3: found \"x\", expected a number");
    expect_said(there_ + "photometry: good.ies, form: spot", "lamps[1].form: found form and photometry");
    expect_said(there_ + "photometry: good.ies, beam angle: 20", "found beam angle of a measured lamp");
    expect_said(there_ + "photometry: good.ies, width: 90", "whose file says its size");
    expect_said(there_ + "photometry: good.ies, lumen: 800, candela: 3", "found lumen and candela");
}

TEST_F(ReadLampLight, Forms) {
    const Lamp strip = read(
                           "form: strip, at: [0, 2900, 600], aim: [0, 1450, 0], faces: [0, 0, 600], length: "
                           "1 m, beam angle: 50, lumen: 900")
                           .on.lamps[0];
    EXPECT_EQ(strip.form, LampForm::strip);
    EXPECT_EQ(strip.width_mm, 1000);
    EXPECT_EQ(strip.height_mm, 30);
    EXPECT_EQ(strip.faces_mm->z, 600);
    const Lamp light = read("form: picture light, lumen: 300").on.lamps[0];
    EXPECT_NEAR(light.width_mm, 360, 1e-9);
    EXPECT_NEAR(light.at_mm.y, 1450 + 225 + 80, 1e-9);
    EXPECT_EQ(read("form: lantern, at: [900, 1200, 500], height: 400, lumen: 300").on.lamps[0].height_mm,
              400);
    expect_said("form: strip, " + there_ + "lumen: 900", "lamps[1].length: found nothing");
    expect_said("form: strip, length: 900, " + there_ + "lumen: 900, field angle: 30",
                "expected `beam angle` as well");
    expect_said("form: strip, length: 900, beam angle: 30, faces: [0, 2900, 3000], " + there_ + "lumen: 900",
                "aside from where the strip faces");
    expect_said(
        "form: strip, length: 900, beam angle: 30, turn: 9, faces: [0, 0, 900], " + there_ + "lumen: 900",
        "found turn and faces");
    expect_said("form: lantern, at: [900, 1200, 500], aim: [0, 0, 9], lumen: 300", "found aim of a lantern");
    expect_said("form: spot, faces: [0, 0, 9], " + there_ + "lumen: 300", "found faces of a spot");
    expect_said("form: spot, length: 9, " + there_ + "lumen: 300", "lamps[1].length");
}

TEST_F(ReadLampLight, Fittings) {
    const Lamp lamp = read(there_ +
                           "lumen: 700, barn doors: {length: 60, left: 20, top: -5}, honeycomb: {cell: 5, "
                           "depth: 8}, snoot: {length: 90}")
                          .on.lamps[0];
    EXPECT_EQ(lamp.fittings.doors.length_mm, 60);
    EXPECT_EQ(lamp.fittings.doors.open_deg[0], 20);
    EXPECT_FALSE(lamp.fittings.doors.open_deg[1]);
    EXPECT_EQ(lamp.fittings.doors.open_deg[2], -5);
    EXPECT_EQ(lamp.fittings.honeycomb.depth_mm, 8);
    EXPECT_EQ(lamp.fittings.snoot.width_mm, 60);
    expect_said(there_ + "lumen: 700, barn doors: {length: 60}", "found no door");
    expect_said(there_ + "lumen: 700, barn doors: {left: 60}", "lamps[1].barn doors.length: found nothing");
    expect_said(there_ + "lumen: 700, barn doors: {length: 60, lefd: 3, top: 9}", "did you mean left?");
    expect_said(there_ + "lumen: 700, barn doors: {length: 60, left: 95}", "expected -60 to 89 deg");
    expect_said(there_ + "lumen: 700, honeycomb: {cell: 5}", "lamps[1].honeycomb.depth: found nothing");
    expect_said(there_ + "lumen: 700, honeycomb: 5", "expected a mapping");
    expect_said(there_ + "lumen: 700, form: flat panel, snoot: {length: 9}", "expected it only of a spot");
    expect_said("form: bulb, at: [900, 1200, 500], lumen: 300, honeycomb: {cell: 5, depth: 8}",
                "expected it only of a lamp that faces one way");
}

TEST_F(ReadLampLight, SpectraOfItsOwn) {
    const Lamp list =
        read(there_ + "lumen: 700, spectrum: [[400, 1], [500, 3], [600, 2], [700, 0]]").on.lamps[0];
    ASSERT_TRUE(list.spectrum);
    EXPECT_NEAR((*list.spectrum)[(450 - 380) / 5], 2, 1e-12);
    EXPECT_EQ((*list.spectrum)[0], 0);  // nothing where nothing was measured
    EXPECT_EQ(*read(there_ + "lumen: 700, spectrum: curve.csv").on.lamps[0].spectrum, *list.spectrum);
    expect_said(there_ + "lumen: 700, spectrum: gone.csv", "lamps[1].spectrum: found no file");
    expect_said(there_ + "lumen: 700, spectrum: [[400, 1], [300, 1]]", "expected rising wavelengths");
    expect_said(there_ + "lumen: 700, spectrum: [[400, -1]]", "expected 0 to");
    expect_said(there_ + "lumen: 700, spectrum: [[900, 1], [950, 1]]", "found no light");
    expect_said(there_ + "lumen: 700, temperature: 3000, spectrum: curve.csv", "expected one of the three");
    folder_.write("odd.csv", "nm;power\n400;1\n500;x\n");
    expect_said(there_ + "lumen: 700, spectrum: odd.csv", "odd.csv:3:5: found \"x\"");
}

// Places by arithmetic.
TEST_F(ReadLampLight, AGridOfLamps) {
    const Layout layout = read(
        "grid: [3, 2], apart: [800, 600], form: spot, at: [0, 2900, 900], aim: [0, 0, 900], "
        "lumen: 300, beam angle: 60");
    ASSERT_EQ(layout.on.lamps.size(), 6u);
    const Lamp &first = layout.on.lamps[0], &last = layout.on.lamps[5];
    EXPECT_EQ(first.name, "a 1");
    EXPECT_EQ(first.group, "a");
    EXPECT_EQ(first.at_mm, glm::dvec3(-800, 2900, 600));
    EXPECT_EQ(first.aim_mm, glm::dvec3(-800, 0, 600));
    EXPECT_EQ(layout.on.lamps[1].at_mm, glm::dvec3(0, 2900, 600));
    EXPECT_EQ(last.name, "a 6");
    EXPECT_EQ(last.at_mm, glm::dvec3(800, 2900, 1200));
    for (const Lamp& lamp : layout.on.lamps) EXPECT_EQ(lamp.lumen, 300);
}

TEST_F(ReadLampLight, BadGrids) {
    const std::string lamp = there_ + "lumen: 300, ";
    expect_said(lamp + "grid: [3, 2]", "lamps[1].apart: found nothing");
    expect_said(lamp + "apart: [300, 200]", "lamps[1].apart: found it without grid");
    expect_said(lamp + "grid: [0, 2], apart: [300, 200]", "lamps[1].grid: found \"0\", expected 1 to 50");
    expect_said(lamp + "grid: [1.5, 2], apart: [300, 200]", "expected whole numbers");
    expect_said(lamp + "grid: 3, apart: [300, 200]", "expected a list of 2 numbers");
    expect_said(lamp + "grid: [50, 2], apart: [5 m, 200]", "lamps[1].grid: a 1: ");  // outside the room
}

TEST_F(ReadLampLight, ALampThatPassesByThePanelIsWarnedOf) {
    const auto warned = [&](const std::string& aim) {
        for (const std::string& w :
             read("at: [0, 2700, 1500], lumen: 300, beam angle: 10, field angle: 20, aim: " + aim).warnings)
            if (w.find("passes by the panel") != std::string::npos) return w;
        return std::string();
    };
    EXPECT_EQ(warned("[0, 1450, 0]"), "");
    EXPECT_EQ(warned("[290, 1600, 0]"), "");  // within the panel, 600 by 450 mm about 1450 mm up
    // Aimed along the wall at 2000 mm: from 1500 mm out and 2700 mm up the axis falls atan(700/1500) = 25.0
    // degrees, the panel's upper edge at 1675 mm is atan(1025/1500) = 34.3 degrees down: 9.3 off, just inside
    // half of 20.
    EXPECT_EQ(warned("[0, 2000, 0]"), "");
    // At 2100 mm: 21.8 degrees down, 12.5 off: outside.
    const std::string said = warned("[0, 2100, 0]");
    EXPECT_NE(said.find("lamps[1].aim: found a lamp that passes by the panel"), std::string::npos) << said;
    EXPECT_NE(said.find("10 degrees off its axis, and the nearest of the panel is 1"), std::string::npos)
        << said;
    EXPECT_NE(warned("[0, 2700, 3000]"), "");  // away from the wall
}

}  // namespace rakelight
