// The general light of pictures of the place, metered in the room that is traced: what the caption says falls
// on the wall. 50 to 150 lx is common practice for halls and living rooms, no published source.
#include "output/portfolio/general_light.h"
#include "output/portfolio/room_exposure.h"
#include "output/portfolio/shot_plan.h"
#include "scene/model/layout.h"

#include <gtest/gtest.h>

#include "renderer/bvh.h"
#include "renderer/light_meter.h"
#include "scene/reading/layout_reader.h"
#include "scene/world/mock_up.h"

using namespace rakelight;

namespace {

PlannedShot place(const std::string& rest, Shot shot = Shot::in_place, std::optional<double> lux = {}) {
    const Layout layout = read_layout_text(
        "panel: {size: [600, 450]}\nfields: [{name: all, piece: 90, mix: slate}]\n" + rest, "a.yaml");
    Portfolio p = usual_portfolio(layout);
    p.show = {shot};
    p.general_lux = lux;
    return plan_portfolio(layout, p).at(0);
}

// At the wall two metres to the left of the work's middle, at the height of a standing eye.
double metered_lux(const PlannedShot& shot) {
    const World world = build_mock_up(shot.layout, lay(shot.layout), {{}, true});
    const Bvh bvh(world);
    double lux = 0;
    const glm::dvec3 at(-1700, 1550, 20);
    for (const glm::dvec3& xyz :
         illuminance_xyz(world, bvh, world.emitters, glm::vec3(at - world.origin_mm), {0, 0, 1}))
        lux += xyz.y;
    return lux;
}

}  // namespace

TEST(GeneralLight, GivesTheWallWhatTheCaptionSays) {
    const char* const rooms[]{"room: {size: [5200, 5600, 3000], wall: warm-grey}\n",
                              "room: {size: [4000, 4500, 2500]}\n",
                              "room: {size: [9000, 8000, 4000], wall: deep-grey, floor: concrete}\n"};
    for (const char* room : rooms) {
        const PlannedShot shot = place(room);
        EXPECT_NE(shot.light.find("120 lx of general light at the wall"), std::string::npos) << shot.light;
        const double lux = metered_lux(shot);
        EXPECT_GT(lux, 50) << room;
        EXPECT_LT(lux, 150) << room;
        EXPECT_NEAR(lux, 120, 30) << room;
    }
}

TEST(GeneralLight, IsFilledUpBesideLampsThatGiveLess) {
    const std::string lamps =
        "lamps: [{name: spot, at: [0, 2900, 900], aim: [0, 1450, 0], lumen: 500, beam angle: 20}, {name: "
        "dim, "
        "form: flat panel, at: [0, 2990, 3800], aim: [0, 0, 3800], lumen: 500, width: 1200, height: 600}]\n";
    const PlannedShot shot = place(lamps);
    EXPECT_EQ(shot.layout.on.lamps.size(), 3u);
    EXPECT_NEAR(metered_lux(shot), 120, 30);
    const PlannedShot more = place(lamps, Shot::in_place, 60);
    EXPECT_NE(more.light.find("60 lx of general light"), std::string::npos);
    EXPECT_NEAR(metered_lux(more), 60, 15);
}

TEST(GeneralLight, IsNotAddedWhereItIsOrIsNotWanted) {
    EXPECT_EQ(place("", Shot::in_place, 0).light, "under the lamps of the place");
    const PlannedShot bright = place(
        "lamps: [{name: sky, form: flat panel, at: [0, 2990, 3000], aim: [0, 0, 3000], lumen: 12000, width: "
        "2000, height: 1500}]\n");
    EXPECT_EQ(bright.layout.on.lamps.size(), 1u);
    EXPECT_EQ(place("room: {windows: [{name: w, wall: left, at: [1500, 900], size: [1000, 1000]}]}\n").light,
              "under the lamps of the place");
    EXPECT_EQ(place("", Shot::day).light, "north light");
    EXPECT_NE(place("", Shot::dusk).light.find("50 lx of general light"), std::string::npos);
    EXPECT_EQ(place("", Shot::straight).light, "under the lamps of the place");
}

TEST(RoomExposure, LiesBetweenWallAndWork) {
    EXPECT_DOUBLE_EQ(exposed_lux({100, 100}, 100), 100);
    EXPECT_GT(exposed_lux({100, 110}, 200), 100);
    EXPECT_LT(exposed_lux({100, 110}, 200), 200);
    EXPECT_DOUBLE_EQ(exposed_lux({100, 700}, 100), 700 / kMostOverWall);  // nor is the wall at its window
    EXPECT_DOUBLE_EQ(exposed_lux({1, 1}, 220), 220 / kMostOver);  // the work is not burnt out in a dark room
}
