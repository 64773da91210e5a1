// Room for names, against boxes found by hand.
#include "output/paper/name_spot.h"

#include <gtest/gtest.h>

#include <cmath>

#include "output/paper/page.h"

namespace rakelight {
namespace {

Region rectangle(double low_x, double low_y, double high_x, double high_y) {
    return {{{{low_x, low_y}, {high_x, low_y}, {high_x, high_y}, {low_x, high_y}}}};
}

// As found, to within the 2 % that the search leaves.
void expect_room(const RoomiestBox& room, double half_height) {
    EXPECT_LE(room.half_height_mm, half_height * (1 + 1e-9));
    EXPECT_GE(room.half_height_mm, half_height / 1.021);
}

TEST(NameSpot, BoxFillsWhatIsNarrowest) {
    expect_room(roomiest_box(rectangle(10, 20, 50, 28), 3), 4);  // height: 8 of 8
    expect_room(roomiest_box(rectangle(10, 20, 50, 60), 5), 4);  // width: 40 / 5
    expect_room(roomiest_box(rectangle(10, 20, 50, 30), 4), 5);  // both
    const RoomiestBox whole = roomiest_box(rectangle(10, 20, 50, 30), 4);
    EXPECT_NEAR(whole.at_mm.x, 30, 0.5);
    EXPECT_NEAR(whole.at_mm.y, 25, 0.5);
}

// A level box w : 1 in a square of side a on its corner: half width + half height = a / sqrt 2.
TEST(NameSpot, BoxInASquareOnItsCorner) {
    const double half = 30 / std::sqrt(2.0);
    const Region diamond{{{{0, -half}, {half, 0}, {0, half}, {-half, 0}}}};
    for (const double wide : {1.0, 2.0, 6.0}) expect_room(roomiest_box(diamond, wide), half / (1 + wide));
}

// The largest box w : 1 in a circle of radius r has its corners on it.
TEST(NameSpot, BoxInACircle) {
    Ring circle;
    for (int k = 0; k < 720; ++k)
        circle.emplace_back(40 * std::cos(glm::radians(k / 2.0)), 40 * std::sin(glm::radians(k / 2.0)));
    for (const double wide : {1.0, 3.0}) {
        const double found = roomiest_box({{circle}}, wide).half_height_mm;
        EXPECT_NEAR(found, 40 / std::hypot(1, wide), 0.03 * found);
    }
}

TEST(NameSpot, BoxKeepsOutOfHolesAndTakesTheLargerIsland) {
    // A hole in the middle of 60 x 20 leaves 25 x 20 on either side, or strips 5 high.
    Region holed = rectangle(0, 0, 60, 20);
    holed.rings.push_back({{25, 5}, {25, 15}, {35, 15}, {35, 5}});
    expect_room(roomiest_box(holed, 2), 6.25);
    Region islands = rectangle(0, 0, 10, 10);
    islands.rings.push_back(rectangle(100, 0, 130, 30).rings[0]);
    const RoomiestBox room = roomiest_box(islands, 1);
    expect_room(room, 15);
    EXPECT_NEAR(room.at_mm.x, 115, 0.5);
}

TEST(NameSpot, NoRoomInNothing) {
    EXPECT_EQ(roomiest_box({}, 2).half_height_mm, 0);
    EXPECT_EQ(name_spot({}, "sea").em_mm, 0);
    EXPECT_EQ(name_spot(rectangle(0, 0, 10, 10), "").em_mm, 0);
}

TEST(NameSpot, NamesBreakWhereGroundIsUpright) {
    EXPECT_EQ(name_spot(rectangle(0, 0, 400, 20), "deep water").lines.size(), 1u);
    const NameSpot upright = name_spot(rectangle(0, 0, 40, 40), "deep water");
    ASSERT_EQ(upright.lines.size(), 2u);
    EXPECT_EQ(upright.lines[0], "deep");
    EXPECT_EQ(upright.lines[1], "water");
    // All of it lies within.
    EXPECT_LT(width_mm(PageText{"water", {}, upright.em_mm, true, Align::left, {}}), 40);
    EXPECT_GT(width_mm(PageText{"water", {}, upright.em_mm, true, Align::left, {}}), 30);
}

}  // namespace
}  // namespace rakelight
