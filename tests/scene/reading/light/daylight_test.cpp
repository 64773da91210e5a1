// Daylight, windows and furniture as they are written, and as they cannot be.
#include <gtest/gtest.h>

#include "scene/light/window_light.h"
#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"

using namespace rakelight;

namespace {

const std::string kHead = "panel: {size: [600, 450]}\nfields: [{name: all, mix: slate}]\n";

std::string room(const std::string& rest) {
    return kHead + "room: {size: [5000, 6000, 3000], " + rest + "}\n";
}
std::string window(const std::string& rest) {
    return room("windows: [{name: pane, " + rest + "}]");
}
std::string day(const std::string& rest) {
    return kHead + "daylight: {" + rest + "}\n";
}

struct Bad {
    std::string text;
    std::string key;
    std::string words;
};

const std::vector<Bad> kBad = {
    {day("sky: clear, date: 2026-06-21, time: 15:00, latitude: 95"), "daylight.latitude", "-90 to 90"},
    {day("sky: clear, date: 2026-02-30, time: 15:00, latitude: 52"), "daylight.date", "day of the calendar"},
    {day("sky: clear, date: 21.6.2026, time: 15:00, latitude: 52"), "daylight.date", "year-month-day"},
    {day("sky: clear, date: 1492-10-12, time: 15:00, latitude: 52"), "daylight.date", "1900 to 2100"},
    {day("sky: clear, date: 2026-06-21, time: 24:30, latitude: 52"), "daylight.time", "00:00 to 23:59"},
    {day("sky: clear, date: 2026-06-21, time: 3pm, latitude: 52"), "daylight.time", "found \"3pm\""},
    {day("sky: clear, date: 2026-06-21, time: 15:00"), "daylight.latitude", "found nothing"},
    {day("sky: clear"), "daylight.date", "found nothing"},
    {day("date: 2026-06-21, time: 15:00, latitude: 52, longitude: 7"), "daylight.longitude", "both"},
    {day("sky: clowdy"), "daylight.sky", "overcast, clear"},
    {day("facing: soth"), "daylight.facing", "did you mean south?"},
    {day("facing: 400"), "daylight.facing", "0 to 360"},
    {day("lux: 5 lm"), "daylight.lux", "expected an illuminance (lx, klx)"},
    {day("sun: 50 klx, date: 2026-06-21, time: 15:00, latitude: 52"), "daylight.sun", "overcast"},
    {day("lattitude: 52"), "daylight.lattitude", "did you mean latitude?"},
    {window("wall: left, at: [5800, 900], size: [1200, 1500]"), "room.windows[1].at", "outside its wall"},
    {window("wall: left, at: [2000, 1800], size: [1200, 1500]"), "room.windows[1].at", "outside its wall"},
    {window("wall: panel, at: [0, 900], size: [1200, 1500]"), "room.windows[1].at", "behind the panel"},
    {window("wall: north, at: [0, 900], size: [1200, 1500]"), "room.windows[1].wall", "left, right"},
    {window("wall: left, at: [2000, 900]"), "room.windows[1].size", "found nothing"},
    {window("wall: left, at: [2000, 900], size: [1200, 1500], panes: [9, 3], bar: 150"),
     "room.windows[1].panes", "no glass"},
    {window("wall: left, at: [2000, 900], size: [1200, 1500], panes: [1.5, 3]"), "room.windows[1].panes",
     "whole numbers"},
    {window("wall: left, at: [2000, 900], size: [1200, 1500], bar material: aqua"),
     "room.windows[1].bar material", "opaque"},
    {room("windows: [{name: sun, wall: left, at: [2000, 900], size: [1200, 1500]}]"), "room.windows[1].name",
     "the sun itself"},
    {room("windows: [{name: a, wall: left, at: [2000, 900], size: [1200, 1500]}, {name: b, wall: left, at: "
          "[2500, "
          "900], size: [1200, 1500]}]"),
     "room.windows[2].at", "over a"},
    {room("furniture: [{name: bench, at: [0, 0, 5900], size: [1200, 450, 400]}]"), "room.furniture[1].at",
     "outside the room"},
    {room("furniture: [{name: shelf, at: [0, 1300, 100], size: [1200, 450, 200]}]"), "room.furniture[1].at",
     "in the panel"},
    {room("furniture: [{name: bench, at: [0, 0, 2000], size: [1200, 450, 400], material: aqua}]"),
     "room.furniture[1].material", "opaque"},
    {room("furniture: [{name: cupboard, at: [0, 0, 2000], size: [1200, 2000, 400]}]") +
         "viewpoints: [{name: v, eye: [0, 1600, 2000]}]\n",
     "viewpoints[1].eye", "inside cupboard"},
    {room("furniture: [{name: cupboard, at: [0, 0, 2000], size: [1200, 2000, 400]}]") +
         "lamps: [{name: a, form: bulb, at: [0, 1600, 2000], lumen: 100}]\n",
     "lamps[1].at", "inside cupboard"},
    {window("wall: left, at: [2000, 900], size: [1200, 1500]") +
         "lamps: [{name: pane, form: bulb, at: [0, 1600, 2000], lumen: 100}]\n",
     "lamps[1].name", "pane"},
    {window("wall: left, at: [2000, 900], size: [1200, 1500]") + "pictures: [{name: p, lamps: [sun]}]\n",
     "pictures[1].lamps", "found"},  // overcast: no sun
    {kHead + "lamps: [{name: a, form: bulb, at: [0, 1600, -200], lumen: 100}]\n", "lamps[1].at",
     "behind the wall"},
    {kHead + "viewpoints: [{name: v, eye: [9000, 1600, 2000]}]\n", "viewpoints[1].eye", "outside the room"},
};

}  // namespace

TEST(ReadDaylight, TakesWhatIsWritten) {
    const Layout layout = read_layout_text(
        kHead +
            "daylight: {sky: clear, date: 2026-06-21, time: 15:30, latitude: 52, longitude: 7.5, utc offset: "
            "2, "
            "facing: "
            "north-east, lux: 12 klx, sun: 60000, temperature: 9000, ground: 30 %}\n"
            "room:\n"
            "  left wall: deep-grey\n"
            "  windows: [{name: west, wall: left, at: [2 m, 900], size: [1200, 1500], curtain: sheer, panes: "
            "[2, 3], "
            "lux: 8000, dimmed to: 50 %}, {name: roof, wall: ceiling, at: [0, 3000], size: [1000, 2000]}]\n"
            "  furniture: [{name: bench, at: [0, 0, 2500], size: [1400, 450, 400], material: dark-oak}]\n"
            "lamps: []\n"
            "pictures: [{name: p, lamps: [west, roof]}]\n",
        "a.yaml");
    const Daylight& d = layout.on.daylight;
    EXPECT_EQ(d.sky, SkyKind::clear);
    ASSERT_TRUE(d.time);
    EXPECT_EQ(d.time->day.month, 6);
    EXPECT_EQ(d.time->hour, 15.5);
    EXPECT_EQ(d.time->longitude_deg, 7.5);
    EXPECT_EQ(d.time->zone_h, 2);
    EXPECT_EQ(d.facing_deg, 45);
    EXPECT_EQ(d.sky_lux, 12'000);
    EXPECT_EQ(d.sun_lux, 60'000);
    EXPECT_EQ(d.temperature_k, 9000);
    EXPECT_EQ(d.ground_reflectance, 0.3);
    const Window& w = layout.on.windows.at(0);
    EXPECT_EQ(w.at_mm, glm::dvec2(2000, 900));
    EXPECT_EQ(w.curtain, Curtain::sheer);
    EXPECT_EQ(w.transmittance, 0.4);
    EXPECT_EQ(w.panes, glm::ivec2(2, 3));
    EXPECT_EQ(w.lux, 8000);
    EXPECT_EQ(w.group, "west");
    EXPECT_EQ(layout.on.windows.at(1).wall, RoomFace::ceiling);
    EXPECT_EQ(layout.on.windows.at(1).transmittance, 0.8);
    EXPECT_EQ(layout.stock[layout.room.left_wall].name, "deep-grey");
    EXPECT_EQ(layout.room.right_wall, layout.room.wall);
    EXPECT_EQ(layout.stock[layout.room.furniture.at(0).material].name, "dark-oak");
    EXPECT_TRUE(layout.on.lamps.empty());
    EXPECT_TRUE(layout.warnings.empty());
}

TEST(ReadDaylight, RefusesWhatCannotBe) {
    for (const Bad& bad : kBad) {
        try {
            read_layout_text(bad.text, "a.yaml");
            ADD_FAILURE() << "taken: " << bad.text;
        } catch (const LayoutError& error) {
            bool found = false;
            for (const Problem& p : error.problems())
                found |= p.key == bad.key && p.text.find(bad.words) != std::string::npos && p.place.line > 0;
            EXPECT_TRUE(found) << bad.text << error.what();
        }
    }
}

TEST(ReadDaylight, WarnsOfDaylightWithoutAWindow) {
    const Layout layout = read_layout_text(day("lux: 5000"), "a.yaml");
    ASSERT_EQ(layout.warnings.size(), 1u);
    EXPECT_NE(layout.warnings[0].find("a.yaml:3:11: daylight: "), std::string::npos) << layout.warnings[0];
}
