// Walls of brick, concrete and panelling: sizes in millimetres, cut round openings, never deeper than the gap
// behind a hung panel.
#include "scene/room/wall_finish.h"
#include "scene/model/layout.h"

#include <gtest/gtest.h>

#include <map>

#include "scene/model/panel.h"
#include "scene/reading/layout_reader.h"
#include "scene/room/doors.h"
#include "tests/support/mesh_checks.h"
#include "tests/support/refusal.h"

using namespace rakelight;

namespace {

Layout wall_of(const std::string& finish, const std::string& more = "") {
    return read_layout_text(
        "panel: {size: [600, 450]}\nfields: [{name: all, piece: 60, mix: slate}]\nroom: {wall "
        "finish: " +
            finish + more + "}\n",
        "wall.yaml");
}

}  // namespace

TEST(WallFinish, BricksHaveTheirSizeJointsAndBond) {
    const Layout layout = wall_of("brick");
    int whole = 0;
    std::map<double, double> first_whole;  // of a course: where its first whole brick begins
    for (const auto& [low, high] : wall_parts(layout, RoomFace::panel)) {
        EXPECT_LE(high.x - low.x, 215 + 1e-9);
        if (high.x - low.x < 215 - 1e-9 || high.y - low.y < 65 - 1e-9) continue;
        ++whole;
        first_whole.try_emplace(low.y, low.x);
    }
    // A metre squared takes 59 to 60 bricks of 225 x 75 mm; the wall is 5 x 3 m.
    EXPECT_NEAR(whole, 15 * 59, 45);
    EXPECT_NEAR(std::abs(first_whole.at(0) - first_whole.at(75)), 112.5, 1e-6);
}

TEST(WallFinish, IsCutRoundDoorsAndWindows) {
    for (const char* finish : {"brick", "concrete", "panelling"}) {
        const Layout layout =
            wall_of(finish,
                    ", doors: [{name: d, at: -1500}], windows: [{name: w, wall: left, at: [2000, "
                    "900], size: [1000, 1200]}]");
        for (const FaceArea& part : wall_parts(layout, RoomFace::panel))
            EXPECT_FALSE(part.meets(door_area(layout.room.doors[0])));
        for (const FaceArea& part : wall_parts(layout, RoomFace::left))
            EXPECT_FALSE(part.meets(window_area(layout.on.windows[0])));
        EXPECT_LT(wall_relief_mm(layout.room.wall_finish), kWallGap_mm);
        expect_closed(
            wall_part_mesh(layout.room, RoomFace::left, wall_parts(layout, RoomFace::left).front()));
    }
    EXPECT_TRUE(wall_parts(wall_of("smooth"), RoomFace::left).empty());
}

TEST(WallFinish, StippleAndBlowholesAreMarkings) {
    EXPECT_FALSE(wall_markings(WallFinish::smooth).any());
    EXPECT_EQ(wall_markings(WallFinish::stippled).face.pattern, Pattern::stippled);
    EXPECT_GT(wall_markings(WallFinish::concrete).mottling.contrast, 0);
    EXPECT_TRUE(wall_parts(wall_of("stippled"), RoomFace::left).empty());
}

TEST(WallFinish, NamesTheNearestWord) {
    const std::string text = refusal_of([] { wall_of("bricks"); });
    EXPECT_NE(text.find("room.wall finish: found \"bricks\""), std::string::npos) << text;
    EXPECT_NE(text.find("did you mean brick?"), std::string::npos) << text;
}
