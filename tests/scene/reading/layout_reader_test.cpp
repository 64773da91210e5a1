#include "scene/reading/layout_reader.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "scene/model/layout.h"
#include "scene/reading/summary.h"
#include "tests/support/layout_samples.h"

namespace rakelight {
namespace {

TEST(LayoutReader, ReadsEverythingThatIsSaid) {
    const Layout layout = read_layout_text(kFullLayout, "full.yaml");
    EXPECT_EQ(layout.panel.name, "Low tide");
    EXPECT_EQ(layout.sources.path, "full.yaml");
    EXPECT_EQ(layout.panel.width_mm, 600);
    EXPECT_EQ(layout.panel.height_mm, 450);
    EXPECT_EQ(layout.panel.seed, 7u);
    EXPECT_EQ(layout.panel.substrate.bed_mm, 2.5);
    ASSERT_TRUE(layout.panel.frame);
    EXPECT_EQ(layout.panel.frame->gap_mm, 3);

    ASSERT_EQ(layout.fields.size(), 2u);
    const Field& foam = layout.fields[0];
    EXPECT_EQ(foam.opus, Opus::musivum);
    EXPECT_TRUE(foam.outline.smooth);
    EXPECT_TRUE(foam.outline.closed);
    EXPECT_EQ(foam.outline.points_mm.at(1), glm::dvec2(300, 80));
    ASSERT_EQ(foam.guides.size(), 3u);
    EXPECT_TRUE(foam.guides[0].smooth);
    EXPECT_FALSE(foam.guides[0].closed);
    EXPECT_FALSE(foam.guides[1].smooth);
    EXPECT_TRUE(foam.guides[2].closed);
    EXPECT_EQ(foam.piece_length_mm, 12);
    EXPECT_EQ(foam.piece_width_mm, 9);
    EXPECT_EQ(foam.angle_deg, 15);
    EXPECT_EQ(foam.halo_rows, 2);
    ASSERT_EQ(foam.mix.size(), 2u);
    EXPECT_EQ(layout.stock[foam.mix[0].material].name, "foam-white");
    EXPECT_DOUBLE_EQ(foam.mix[0].share, 0.7);
    EXPECT_EQ(layout.tints[foam.grout.value()].name, "kelp-joint");
    EXPECT_EQ(foam.zone, "water");
    EXPECT_EQ(foam.place.line, 15);
    const Field& rest = layout.fields[1];
    EXPECT_FALSE(rest.grout);
    EXPECT_EQ(rest.outline.points_mm.at(2), glm::dvec2(600, 450));

    ASSERT_EQ(layout.stones.size(), 1u);
    EXPECT_EQ(layout.stones[0].form, "pebble");
    EXPECT_EQ(layout.stones[0].size_mm, glm::dvec3(38, 30, 22));
    ASSERT_EQ(layout.on.lamps.size(), 3u);
    EXPECT_EQ(layout.on.lamps[0].group, "spots");
    EXPECT_EQ(layout.on.lamps[0].field_deg, 45);
    EXPECT_EQ(layout.on.lamps[1].form, LampForm::panel);
    EXPECT_EQ(layout.on.lamps[1].candela, 500);
    EXPECT_EQ(layout.on.lamps[1].illuminant, "F11");
    EXPECT_EQ(layout.on.lamps[2].form, LampForm::bulb);
    EXPECT_EQ(layout.on.lamps[2].dimming, 0.5);
    EXPECT_EQ(layout.views.viewpoints[0].eye_mm, glm::dvec3(0, 1500, 1500));
    EXPECT_EQ(layout.views.viewpoints[0].look_at_mm, glm::dvec3(0, 1450, 0));
    EXPECT_EQ(layout.views.viewpoints[0].view_width_mm, 760);
    EXPECT_EQ(layout.views.viewpoints[1].eye_mm, glm::dvec3(800, 1150, 2000));
    ASSERT_EQ(layout.views.pictures.size(), 2u);
    EXPECT_EQ(layout.views.pictures[0].lamps, std::vector<std::string>{"spots"});
    EXPECT_DOUBLE_EQ(layout.views.pictures[0].error, 0.02);
    EXPECT_FALSE(layout.views.pictures[0].ev);
    EXPECT_EQ(layout.views.pictures[1].ev, 7.5);
}

TEST(LayoutReader, EveryNameInTheLayoutIsInItsStock) {
    for (const std::string_view text : {kFullLayout, kSmallLayout}) {
        const Layout layout = read_layout_text(text, "f.yaml");
        const std::size_t stock = layout.stock.size(), tints = layout.tints.size();
        for (const Field& f : layout.fields) {
            for (const MixPart& part : f.mix) EXPECT_LT(part.material, stock);
            EXPECT_LT(f.bed, tints);
            EXPECT_LT(f.grout.value_or(0), tints);
        }
        EXPECT_LT(layout.panel.substrate.material, stock);
        const Room& room = layout.room;
        for (const std::uint32_t paint : {room.wall, room.left_wall, room.right_wall, room.opposite_wall,
                                          room.panel_wall, room.floor, room.ceiling})
            EXPECT_LT(paint, stock);
    }
}

TEST(LayoutReader, SmallestFileGetsLampsViewAndPicture) {
    const Layout layout = read_layout_text(kSmallLayout, "small.yaml");  // 24 x 18 in
    EXPECT_NEAR(layout.panel.width_mm, 609.6, 1e-9);
    ASSERT_EQ(layout.on.lamps.size(), 2u);
    for (const Lamp& lamp : layout.on.lamps) {
        // Lamps aimed 30 degrees from the vertical as seen at a standing eye of 1600 mm.
        EXPECT_NEAR(lamp.at_mm.z / (lamp.at_mm.y - 1600), std::tan(glm::radians(30.0)), 1e-9);
        EXPECT_EQ(lamp.group, "spots");
    }
    // Inverse square and cosine: both together put 300 lx on the panel's centre.
    double lux = 0;
    for (const Lamp& lamp : layout.on.lamps) {
        const double metres = glm::distance(lamp.at_mm, lamp.aim_mm) / 1000;
        lux += lamp.candela / (metres * metres) * (lamp.at_mm.z / 1000 / metres);
    }
    EXPECT_NEAR(lux, 300, 1e-6);
    ASSERT_EQ(layout.views.viewpoints.size(), 1u);
    ASSERT_EQ(layout.views.pictures.size(), 1u);
    EXPECT_EQ(layout.views.pictures[0].width_px, 1200);
    EXPECT_EQ(layout.views.pictures[0].height_px, 900);  // 24:18 is 4:3
    EXPECT_NEAR(layout.views.viewpoints[0].view_width_mm, 1.12 * 609.6, 1e-9);
}

TEST(LayoutReader, ViewOfATallPanelShowsItsWholeHeight) {
    const Layout layout = read_layout_text(
        "panel: {size: [300, 1200], frame: {width: 20}}\nfields: [{name: all, mix: slate}]\n"
        "viewpoints: [{name: v, distance: 3000}]\npictures: [{name: p, viewpoint: v, size: [800, 600]}]\n",
        "f.yaml");
    EXPECT_GE(layout.views.viewpoints[0].view_width_mm * 600 / 800, 1240);
}

TEST(LayoutReader, SameTextSameLayout) {
    EXPECT_EQ(summarise(read_layout_text(kFullLayout, "f.yaml")),
              summarise(read_layout_text(kFullLayout, "f.yaml")));
}

TEST(LayoutReader, WindowsLineEndsAndAByteOrderMarkChangeNothing) {
    std::string text = "\xef\xbb\xbf";
    for (const char c : kFullLayout) text += c == '\n' ? "\r\n" : std::string(1, c);
    EXPECT_EQ(summarise(read_layout_text(text, "f.yaml")),
              summarise(read_layout_text(kFullLayout, "f.yaml")));
}

TEST(Summary, NamesWhatMatters) {
    const std::string text = summarise(read_layout_text(kFullLayout, "f.yaml"));
    for (const char* words :
         {"Low tide: 600 x 450 mm", "foam: musivum", "foam-white 70 %", "grout kelp-joint", "joints open",
          "left spot (group spots): spot, 700 lm, 3000 K", "F11", "straight: from straight, 1200 x 900 px"})
        EXPECT_NE(text.find(words), std::string::npos) << words;
}

}  // namespace
}  // namespace rakelight
