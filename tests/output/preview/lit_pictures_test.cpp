// Which pictures a run makes in which lights, and the program doing so.
#include "output/preview/lit_pictures.h"
#include "scene/model/layout.h"

#include <gtest/gtest.h>

#include "output/system/errors.h"
#include "scene/reading/layout_reader.h"
#include "scene/text/diagnostics.h"
#include "tests/support/run_program.h"

namespace rakelight {
namespace {

using test::holds;
using test::run_in;

constexpr const char* kTide =
    "panel: {size: [120, 90]}\n"
    "fields: [{name: sea, opus: tessellatum, piece: 12, joint: 2, mix: slate}]\n"
    "lamps: [{name: spot, at: [0, 2900, 900], aim: [0, 1450, 0], lumen: 700}]\n"
    "pictures:\n"
    "  - {name: straight, size: [32, 24], grain: 50 %, most samples: 4}\n"
    "  - {name: dark, light: window behind, size: [32, 24], grain: 50 %, most samples: 4}\n"
    "  - {name: spot only, lamps: [spot], size: [32, 24], grain: 50 %, most samples: 4}\n";

Layout tide(const std::string& more = "") {
    return read_layout_text(kTide + more, "tide.yaml");
}

std::string made(const Layout& layout, const std::vector<std::string>& asked) {
    std::string text;
    for (const Picture& p : pictures_in_lights(layout, layout.views.pictures, asked))
        text += p.name + "|" + p.light + "|" + (p.lamps.empty() ? "" : p.lamps[0]) + "\n";
    return text;
}

}  // namespace

TEST(LitPictures, OneLightLeavesThemAsTheyAre) {
    EXPECT_EQ(made(tide(), {}), "straight||\nspot only||spot\ndark|window behind|\n");
}

TEST(LitPictures, SeveralLightsMakeOneEach) {
    EXPECT_EQ(made(tide("light: [wash, own light]\n"), {}),
              "straight wash|wash|\nstraight own light|own light|\nspot only|own light|spot\n"
              "dark|window behind|\n");
}

TEST(LitPictures, LightsAskedForReplaceTheirOwn) {
    EXPECT_EQ(made(tide(), {"dusk", "gallery spot", "dusk"}),
              "straight dusk|dusk|\ndark dusk|dusk|\nspot only dusk|dusk|\n"
              "straight gallery spot|gallery spot|\ndark gallery spot|gallery spot|\n"
              "spot only gallery spot|gallery spot|spot\n");
}

TEST(LitPictures, WhatCannotBeIsRefused) {
    EXPECT_THROW(chosen_lights(tide(), std::vector<std::string>{"duskk"}), LayoutError);
    EXPECT_THROW(chosen_lights(
                     tide("room: {furniture: [{name: cupboard, at: [0, 0, 1100], size: [900, 2990, 1400]}]}\n"
                          "viewpoints: [{name: v, distance: 2500}]\n"),
                     std::vector<std::string>{"gallery spot"}),
                 LayoutError);
    Layout layout = tide();
    layout.views.pictures[1].name = "straight dusk";
    layout.views.pictures[1].light.clear();
    layout.views.pictures[0].name = "straight";
    layout.lights = {"dusk", "wash"};
    layout.views.pictures[2].name = "straight dusk";
    layout.views.pictures[2].light = "wash";
    layout.views.pictures.erase(layout.views.pictures.begin() + 1);
    EXPECT_THROW(pictures_in_lights(layout, layout.views.pictures, {}), RequestError);
}

TEST(LitPictures, TheProgramWritesThemUnderTheirNames) {
    const test::Folder folder;
    std::ofstream(folder / "tide.yaml") << kTide << "light: [dusk, own light]\n";
    const auto all = run_in(folder, "preview tide.yaml --quiet");
    ASSERT_EQ(all.code, 0) << all.err;
    for (const char* name : {"straight-dusk.png", "straight-own-light.png", "dark.png", "spot-only.png"})
        EXPECT_TRUE(std::filesystem::exists(folder / "renders/tide" / name)) << name;
    // The same picture by its file's choice and by the command line's.
    const auto asked =
        run_in(folder, "preview tide.yaml --picture straight --light dusk --quiet --into asked");
    ASSERT_EQ(asked.code, 0) << asked.err;
    for (const char* name : {"straight-dusk.png", "straight-dusk.exr", "straight-dusk.json"})
        EXPECT_TRUE(test::bytes_of(folder / "asked/tide" / name) ==
                    test::bytes_of(folder / "renders/tide" / name))
            << name;
    EXPECT_FALSE(test::bytes_of(folder / "renders/tide/straight-dusk.exr") ==
                 test::bytes_of(folder / "renders/tide/straight-own-light.exr"));
    EXPECT_TRUE(holds(test::bytes_of(folder / "asked/tide/straight-dusk.json"), "\"light\": \"dusk\""));
    EXPECT_FALSE(holds(test::bytes_of(folder / "renders/tide/straight-own-light.json"), "\"light\""));
    // Parts of a picture in a light of its own come together again.
    const std::string part = "preview tide.yaml --picture straight --light dusk --quiet --into parts --part ";
    ASSERT_EQ(run_in(folder, part + "1/2").code, 0);
    ASSERT_EQ(run_in(folder, part + "2/2").code, 0);
    ASSERT_EQ(run_in(folder, "join parts/tide/*.exr --into joined").code, 0);
    for (const char* name : {"straight-dusk.exr", "straight-dusk.json"})
        EXPECT_TRUE(test::bytes_of(folder / "joined" / name) == test::bytes_of(folder / "asked/tide" / name))
            << name;
    const auto said = run_in(folder, "check tide.yaml");
    EXPECT_TRUE(holds(said.out, "in the light dusk:")) << said.out;
    EXPECT_TRUE(holds(said.out, "dark: from straight in the light window behind")) << said.out;
}

TEST(LitPictures, StockSheetsInALight) {
    const test::Folder folder;
    std::ofstream(folder / "tide.yaml") << kTide;
    const auto o = run_in(folder, "stock tide.yaml --light 'north light' --light 'evening lamp'");
    ASSERT_EQ(o.code, 0) << o.err;
    EXPECT_EQ(o.out,
              "renders/tide/stock-north-light.png\nrenders/tide/stock-north-light.json\n"
              "renders/tide/stock-evening-lamp.png\nrenders/tide/stock-evening-lamp.json\n");
    const std::string north = test::bytes_of(folder / "renders/tide/stock-north-light.json");
    EXPECT_TRUE(holds(north, "north light"));
}

TEST(LitPictures, UnknownLightsEndWithTwoBeforeAnythingIsWritten) {
    const test::Folder folder;
    std::ofstream(folder / "tide.yaml") << kTide;
    for (const char* command : {"preview tide.yaml --light dask", "stock tide.yaml --light dask"})
        test::expect_refused(folder, command, "did you mean dusk?");
    EXPECT_EQ(folder.entries(), 1u);
}

}  // namespace rakelight
