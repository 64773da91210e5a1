// Known set-ups of light against the rules they are named after.
#include <gtest/gtest.h>

#include "scene/light/known_set_ups.h"
#include "scene/light/lamp_placing.h"
#include "scene/light/set_ups_of_windows.h"
#include "scene/light/window_light.h"
#include "scene/light/with_light.h"
#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"
#include "scene/room/room_face.h"

namespace rakelight {
namespace {

Layout panel_in(const std::string& room, const std::string& size = "[600, 450]") {
    return read_layout_text(
        "panel: {size: " + size + "}\nfields: [{name: all, mix: slate}]\nroom: {" + room + "}\n", "t.yaml");
}

const Lamp& lamp_of(const Layout& layout, const std::string& name) {
    for (const Lamp& lamp : layout.on.lamps)
        if (lamp.name == name) return lamp;
    throw std::out_of_range(name);
}

// From the middle of the faces towards a lamp.
glm::dvec3 way_to(const Layout& layout, const Lamp& lamp) {
    return glm::normalize(lamp.at_mm - face_centre_mm(layout));
}

// E = I cos / d^2, the lamp aimed at the middle.
double lux_of(const Layout& layout, const Lamp& lamp) {
    const double metres = glm::distance(lamp.at_mm, face_centre_mm(layout)) / 1000;
    return lamp.candela * way_to(layout, lamp).z / (metres * metres);
}

}  // namespace

// Canadian Conservation Institute, Notes 2/3: D = (H - 160 cm) x 0.577, so 81 cm under a ceiling of 300 cm,
// and 30 cm more for large works.
TEST(SetUps, GallerySpotStandsByTheThirtyDegreeRule) {
    EXPECT_NEAR(gallery_setback_mm(3000, 1450, 450), 810, 2);
    for (const double height_mm : {2400.0, 2700.0, 3600.0, 4500.0})
        EXPECT_NEAR(gallery_setback_mm(height_mm, 1450, 450), (height_mm - 1600) * 0.577, 2);
    EXPECT_NEAR(gallery_setback_mm(3000, 1450, 1500), 1110, 2);
    EXPECT_NEAR(gallery_setback_mm(4000, 2450, 450), 810, 2);  // hung 1 m higher under a ceiling 1 m higher

    const Layout layout = with_light(panel_in("size: [5000, 6000, 3000]"), "gallery spot");
    EXPECT_NEAR(lamp_of(layout, "spot").at_mm.z, 810, 2);
    const glm::dvec3 way = way_to(layout, lamp_of(layout, "spot"));
    EXPECT_NEAR(glm::degrees(std::atan2(way.z, way.y)), 30, 2.5);
    EXPECT_NEAR(way.x, 0, 1e-12);
}

// Accent to general light 3:1 to 5:1 as seen, so at least that in direct light (IES RP-30, from memory).
TEST(SetUps, GallerySpotIsAnAccent) {
    const Layout layout = with_light(panel_in("size: [5000, 6000, 3000]"), "gallery spot");
    const Lamp& room = lamp_of(layout, "room light");
    const glm::dvec3 way = room.at_mm - face_centre_mm(layout);
    const double metres = glm::length(way) / 1000;  // a matte panel: I falls with the cosine
    const double room_lux = room.candela * way.y * way.z / glm::dot(way, way) / (metres * metres);
    EXPECT_NEAR(lux_of(layout, lamp_of(layout, "spot")), 250, 1e-6);
    EXPECT_NEAR(room_lux, 25, 1e-6);
}

TEST(SetUps, PairStandsAtFortyFiveDegrees) {
    for (const char* room :
         {"size: [5000, 6000, 3000]", "size: [2400, 3000, 2600]", "size: [5000, 1600, 3000]"}) {
        const Layout layout = with_light(panel_in(room), "pair at 45");
        ASSERT_EQ(layout.on.lamps.size(), 2u);
        for (const Lamp& lamp : layout.on.lamps)
            EXPECT_NEAR(glm::degrees(std::acos(way_to(layout, lamp).z)), 45, 1e-6) << room;
        EXPECT_EQ(layout.on.lamps[0].at_mm.x, -layout.on.lamps[1].at_mm.x);
        EXPECT_EQ(layout.on.lamps[0].candela, layout.on.lamps[1].candela);
    }
}

// Raking light makes 5 to 15 degrees with the surface, from 150 to 300 mm out. Common practice, no published
// source.
TEST(SetUps, RakingLightGrazes) {
    for (const char* size : {"[600, 450]", "[300, 900]", "[1600, 700]"})
        for (const char* name : {"rake from top", "rake from side"}) {
            const Layout layout = with_light(panel_in("size: [5000, 6000, 3000]", size), name);
            const glm::dvec3 way = way_to(layout, layout.on.lamps.at(0));
            EXPECT_NEAR(glm::degrees(std::asin(way.z)), 10, 2) << name << size;
            const double out_mm = layout.on.lamps[0].at_mm.z - face_centre_mm(layout).z;
            EXPECT_GE(out_mm, 150 - 1e-9) << name << size;
            EXPECT_LE(out_mm, 300 + 1e-9) << name << size;
            EXPECT_NEAR(std::string(name) == "rake from top" ? way.x : way.y, 0, 1e-12);
        }
}

// Wall-washers stand a third to a half of the wall's height out. Common practice, no published source.
TEST(SetUps, WashStandsOut) {
    for (const char* room : {"size: [5000, 6000, 2600]", "size: [5000, 6000, 4000]"}) {
        const Layout layout = with_light(panel_in(room), "wash");
        const double share = layout.on.lamps.at(0).at_mm.z / layout.room.height_mm;
        EXPECT_GE(share, 1.0 / 3);
        EXPECT_LE(share, 0.5);
        EXPECT_GE(layout.on.lamps[0].width_mm, layout.panel.width_mm);
    }
}

// The sun of the set-up, found again from date, hour, latitude and facing.
TEST(SetUps, SunShinesFromWhereItIsWanted) {
    for (const glm::dvec3& wanted : {glm::dvec3(-0.8, 0.2, 0.55), glm::dvec3(0.6, 0.5, 0.6),
                                     glm::dvec3(0, 0.1, 1), glm::dvec3(-0.9, -0.02, 0.2)}) {
        const glm::dvec3 to_sun = look_outside(daylight_from(glm::normalize(wanted))).to_sun;
        EXPECT_GT(glm::dot(to_sun, glm::normalize(wanted)), std::cos(glm::radians(0.02))) << wanted.x;
    }
}

// Follows the ray from the panel's middle towards the sun to the wall: it leaves through the window.
TEST(SetUps, SunPatchReachesThePanel) {
    for (const char* room : {"size: [5000, 6000, 3000]", "size: [3600, 4000, 2500]",
                             "size: [5000, 6000, 3000], windows: [{name: bay, wall: right, at: [2000, 600], "
                             "size: [1200, 1800]}]"}) {
        const Layout layout = with_light(panel_in(room), "sun patch");
        ASSERT_TRUE(sun_shines_in(layout)) << room;
        const glm::dvec3 from = face_centre_mm(layout), to_sun = look_outside(layout.on.daylight).to_sun;
        const Window& window = layout.on.windows.at(0);
        const FacePlane face = face_plane(layout.room, window.wall);
        const double way_mm = glm::dot(face.origin_mm - from, face.inward) / glm::dot(to_sun, face.inward);
        const glm::dvec3 met = from + way_mm * to_sun - face.origin_mm;
        const FaceArea area = window_area(window);
        EXPECT_GT(way_mm, 0);
        EXPECT_GT(glm::dot(met, face.along), area.low_mm.x);
        EXPECT_LT(glm::dot(met, face.along), area.high_mm.x);
        EXPECT_GT(glm::dot(met, face.up), area.low_mm.y);
        EXPECT_LT(glm::dot(met, face.up), area.high_mm.y);
    }
}

TEST(SetUps, RoomsOwnWindowsAreUsed) {
    const Layout layout = panel_in(
        "size: [5000, 6000, 3000], windows: [{name: door, wall: opposite, at: [900, 10], size: [900, 2100]}, "
        "{name: roof, wall: ceiling, at: [0, 3000], size: [800, 800]}]");
    EXPECT_EQ(with_light(layout, "north light").on.windows.size(), 2u);
    ASSERT_EQ(with_light(layout, "window behind").on.windows.size(), 1u);
    EXPECT_EQ(with_light(layout, "window behind").on.windows[0].name, "door");
    EXPECT_TRUE(with_light(layout, "gallery spot").on.windows.empty());  // night
}

TEST(SetUps, DuskIsFiftyLuxOfWarmLightAndASunThatIsDown) {
    const Layout layout = with_light(panel_in("size: [5000, 6000, 3000]"), "dusk");
    EXPECT_NEAR(lux_of(layout, layout.on.lamps.at(0)), 50, 1e-6);
    EXPECT_LE(layout.on.lamps[0].temperature_k, 2700);
    EXPECT_LT(look_outside(layout.on.daylight).to_sun.y, 0);
    EXPECT_EQ(look_outside(layout.on.daylight).sun_lux, 0);
    EXPECT_FALSE(layout.on.windows.empty());
}

TEST(SetUps, AllFitIntoRoomsSmallAndLarge) {
    for (const char* room : {"size: [5000, 6000, 3000]", "size: [2200, 2200, 2300]",
                             "size: [12000, 9000, 5000]", "size: [5000, 6000, 3000], lean: 6"})
        for (const KnownSetUp& known : known_set_ups()) {
            const Layout layout = with_light(panel_in(room), known.name);
            EXPECT_EQ(layout.on.name, known.name);
            EXPECT_FALSE(layout.on.lamps.empty() && layout.on.windows.empty());
            for (const Window& window : layout.on.windows)
                EXPECT_LT(window.bar_material.value(), layout.stock.size()) << known.name;
        }
}

}  // namespace rakelight
