// Set-ups of light as they are written, chosen and refused.
#include <gtest/gtest.h>

#include "scene/light/with_light.h"
#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"
#include "scene/room/lean.h"
#include "tests/support/refusal.h"

namespace rakelight {
namespace {

constexpr const char* kHead = "panel: {size: [600, 450]}\nfields: [{name: all, mix: slate}]\n";
constexpr const char* kRoom =
    "room: {windows: [{name: bay, wall: left, at: [1500, 900], size: [1000, 1200]}]}\n"
    "lamps: [{name: spot, at: [0, 2900, 900], aim: [0, 1450, 0], lumen: 700}]\n"
    "daylight: {lux: 5000}\n"
    "set-ups:\n"
    "  opening night:\n"
    "    windows: []\n"
    "    lamps:\n"
    "      - {name: candles, form: bulb, at: [500, 1200, 700], lumen: 90, temperature: 2000}\n"
    "  noon:\n"
    "    lamps: []\n"
    "    daylight: {lux: 30000}\n";

Layout read(const std::string& text) {
    return read_layout_text(kHead + text, "t.yaml");
}

std::string refusal(const std::string& text) {
    return refusal_of([&] { read(text); });
}

std::vector<std::string> lamp_names(const Layout& layout) {
    std::vector<std::string> names;
    for (const Lamp& lamp : layout.on.lamps) names.push_back(lamp.name);
    return names;
}

using Names = std::vector<std::string>;

}  // namespace

TEST(ReadSetUps, ALayoutOfLampsIsItsOwnLight) {
    const Layout layout = read(kRoom);
    EXPECT_EQ(layout.lights, Names{"own light"});
    EXPECT_EQ(layout.on.name, "own light");
    EXPECT_EQ(lamp_names(layout), Names{"spot"});
    EXPECT_EQ(layout.set_ups.size(), 3u);
}

TEST(ReadSetUps, WhatASetUpDoesNotSayIsAsInTheRoom) {
    const Layout layout = read(kRoom);
    const Layout night = with_light(layout, "opening night"), noon = with_light(layout, "noon");
    EXPECT_EQ(lamp_names(night), Names{"candles"});
    EXPECT_TRUE(night.on.windows.empty());
    EXPECT_EQ(night.on.daylight.sky_lux, 5000);
    EXPECT_TRUE(noon.on.lamps.empty());
    EXPECT_EQ(noon.on.windows.size(), 1u);
    EXPECT_EQ(noon.on.daylight.sky_lux, 30000);
    // Back again: nothing is lost on the way.
    const Layout again = with_light(noon, "own light");
    EXPECT_EQ(lamp_names(again), Names{"spot"});
    EXPECT_EQ(again.on.daylight.sky_lux, 5000);
}

TEST(ReadSetUps, OneOrSeveralAreShown) {
    const Layout one = read("light: gallery spot\n");
    EXPECT_EQ(one.lights, Names{"gallery spot"});
    EXPECT_EQ(lamp_names(one), (Names{"spot", "room light"}));
    const Layout several = read(std::string(kRoom) + "light: [noon, dusk, own light]\n");
    EXPECT_EQ(several.lights, (Names{"noon", "dusk", "own light"}));
    EXPECT_EQ(several.on.name, "noon");
    EXPECT_TRUE(several.on.lamps.empty());
}

TEST(ReadSetUps, PicturesChooseALightAndLampsInIt) {
    const Layout layout = read(std::string(kRoom) +
                               "pictures:\n"
                               "  - {name: a}\n"
                               "  - {name: b, light: opening night, lamps: [candles]}\n"
                               "  - {name: c, light: dusk, lamps: [warm spot]}\n");
    EXPECT_EQ(layout.views.pictures[0].light, "");
    EXPECT_EQ(layout.views.pictures[1].light, "opening night");
    EXPECT_EQ(layout.views.pictures[2].light, "dusk");
    EXPECT_EQ(layout.on.name, "own light");  // still
    // Without a light of its own, the first that has all the lamps.
    const Layout several =
        read(std::string(kRoom) + "light: [noon, opening night]\npictures: [{name: a, lamps: [candles]}]\n");
    EXPECT_EQ(several.views.pictures[0].light, "opening night");
}

// A panel is laid once, in whatever light it is shown.
TEST(ReadSetUps, LeaningPiecesDoNotFollowTheSwitch) {
    const std::string text =
        "panel: {size: [600, 450]}\n"
        "fields: [{name: all, mix: slate, lean towards: {lamp: candles}}]\n" +
        std::string(kRoom);
    const Layout layout = read_layout_text(text, "t.yaml");
    const Lean& lean = layout.fields[0].setting.lean;
    const glm::dvec3 way = toward(layout, lean, {300, 225, 0});
    EXPECT_GT(way.x, 0.3);  // to the right, where the candles stand
    for (const char* light : {"opening night", "noon", "gallery spot"})
        EXPECT_EQ(toward(with_light(layout, light), lean, {300, 225, 0}), way) << light;
}

TEST(ReadSetUps, MistakesSayWhereAndWhat) {
    struct Case {
        std::string text, words;
    };
    for (const Case& c : {
             Case{"light: duskk\n",
                  "t.yaml:3:8: light: found \"duskk\", expected one of own light, gallery spot"},
             {"light: duskk\n", "did you mean dusk?"},
             {"light: [dusk, dusk]\n", "t.yaml:3:15: light: found \"dusk\" again"},
             {"light: []\n", "light: found an empty list"},
             {"light: {a: 1}\n", "light: found"},
             {"set-ups: {dusk: {lamps: []}}\n", "set-ups.dusk: found the name of a set-up there is"},
             {"set-ups: {own light: {lamps: []}}\n", "set-ups.own light: found the name"},
             {"set-ups: {a: {lamps: []}}\n", "set-ups.a.lamps: found an empty list"},
             {"set-ups: {a: {}}\n", "set-ups.a: found nothing in it"},
             {"set-ups: {a: 3}\n", "set-ups.a: found \"3\", expected a mapping"},
             {"set-ups: [a]\n", "set-ups: found a list"},
             {"set-ups: {a: {lamp: []}}\n", "did you mean lamps?"},
             {"set-ups: {a: {lamps: [{name: l, form: bulb, at: [0, 1450, -200], lumen: 5}]}}\n",
              "set-ups.a.lamps[1].at: found [0, 1450, -200] behind the wall"},
             {"set-ups: {a: {windows: [{name: w, wall: left, at: [9000, 900], size: [900, 900]}]}}\n",
              "set-ups.a.windows[1].at: found a window from"},
             {"set-ups: {a: {daylight: {latitude: 95, date: 2026-06-21, time: 15:00}}}\n",
              "set-ups.a.daylight.latitude: found \"95\", expected -90 to 90"},
             {"set-ups: {a: {lamps: [{name: l, form: bulb, at: [0, 1450, 900], lumen: 5}]}, a: {lamps: "
              "[]}}\n",
              "again"},
             {"pictures: [{name: p, light: dask}]\n", "pictures[1].light: found \"dask\""},
             {"pictures: [{name: p, light: dusk, lamps: [warm spit]}]\n", "did you mean warm spot?"},
             {"light: own light\nlamps: []\n", "light: own light: found no lamp and no window"},
             {"room: {furniture: [{name: cupboard, at: [0, 0, 820], size: [900, 2990, 700]}]}\nlight: "
              "gallery spot\n",
              "light: gallery spot: spot does not fit here"},
         })
        EXPECT_NE(refusal(c.text).find(c.words), std::string::npos) << c.text << refusal(c.text);
}

TEST(ReadSetUps, UnknownOnTheWayOutIsRefusedAsWell) {
    const Layout layout = read(kRoom);
    EXPECT_THROW(with_light(layout, "midnight"), LayoutError);
    EXPECT_NE(refusal_of([&] { with_light(layout, "opning night"); }).find("did you mean opening night?"),
              std::string::npos);
    // The usual lamps are no help in a file that shows another light and lists no lamp at all.
    EXPECT_THROW(with_light(read("light: dusk\nlamps: []\n"), "own light"), LayoutError);
}

// A layout built by hand has the light it was given.
TEST(ReadSetUps, ALayoutWithoutSetUpsKeepsItsLamps) {
    Layout layout = read(kRoom);
    layout.set_ups.clear();
    layout.lights.clear();
    EXPECT_EQ(lamp_names(with_light(layout, "own light")), Names{"spot"});
    EXPECT_EQ(lamp_names(with_light(with_light(layout, "gallery spot"), "own light")), Names{"spot"});
}

}  // namespace rakelight
