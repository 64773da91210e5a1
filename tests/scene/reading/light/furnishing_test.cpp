// Doors, boards, skirting and furniture as they are written, and as they cannot be.
#include "scene/model/layout.h"

#include <gtest/gtest.h>

#include "scene/reading/layout_reader.h"
#include "tests/support/refusal.h"

using namespace rakelight;

namespace {

Layout read(const std::string& room) {
    return read_layout_text(
        "panel: {size: [600, 450]}\nfields: [{name: all, piece: 60, mix: slate}]\nroom: {" + room + "}\n",
        "a.yaml");
}

std::string refused(const std::string& room) {
    return refusal_of([&] { read(room); });
}

}  // namespace

TEST(ReadFurnishing, TakesWhatIsWritten) {
    const Layout layout = read(
        "boards: 12 cm, skirting: 70, joinery: oak, doors: [{name: hall, wall: left, at: 2000, size: [900, "
        "2100], material: warm-grey}], furniture: [bench, {name: stand, form: table, material: dark-oak}, "
        "{name: chest, at: [-1800, 0, 2500], size: [400, 500, 400]}]");
    const Room& room = layout.room;
    EXPECT_EQ(room.board_mm, 120);
    EXPECT_EQ(room.skirting_mm, 70);
    EXPECT_EQ(layout.stock[room.joinery.value()].name, "oak");
    EXPECT_EQ(room.doors.at(0).wall, RoomFace::left);
    EXPECT_EQ(room.doors[0].size_mm, glm::dvec2(900, 2100));
    EXPECT_EQ(layout.stock[room.doors[0].leaf].name, "warm-grey");
    ASSERT_EQ(room.furniture.size(), 3u);
    EXPECT_EQ(room.furniture[0].form, FurnitureForm::bench);
    EXPECT_EQ(room.furniture[0].size_mm, glm::dvec3(1300, 450, 380));
    EXPECT_EQ(room.furniture[1].form, FurnitureForm::table);
    EXPECT_EQ(layout.stock[room.furniture[1].material].name, "dark-oak");
    EXPECT_EQ(room.furniture[2].form, FurnitureForm::box);
}

TEST(ReadFurnishing, SaysWhatIsWrongAndWhere) {
    const std::pair<const char*, const char*> cases[]{
        {"furniture: [bensh]",
         "room.furniture[1]: found \"bensh\", expected bench, table, chair or a mapping"},
        {"furniture: [bensh]", "did you mean bench?"},
        {"furniture: bench", "room.furniture: found"},
        {"furniture: [{name: a, form: tabel}]", "did you mean table?"},
        {"furniture: [{name: a}]", "room.furniture[1].at: found nothing"},
        {"furniture: [{name: a, form: chair, at: [9000, 0, 0]}]", "outside the room"},
        {"boards: 5", "room.boards: found 5 mm, expected 0 or at least 30 mm"},
        {"skirting: 8", "room.skirting: found 8 mm, expected 0 or at least 20 mm"},
        {"skirtin: 8", "did you mean skirting?"},
        {"doors: [{name: d, at: 0}]", "found a door behind the panel"},
        {"doors: [{name: d, at: 2400}]", "outside its wall"},
        {"doors: [{name: d, wall: left}]", "room.doors[1].at: found nothing"},
        {"doors: [{name: d, wall: ceiling, at: 0}]", "room.doors[1].wall"},
        {"doors: [{name: d, wall: left, at: 900}, {name: e, wall: left, at: 1500}]", "over d"},
        {"doors: [{name: d, wall: left, at: 900, material: aqua}]", "opaque"},
        {"windows: [{name: w, wall: left, at: [1000, 900], size: [1000, 1000]}], doors: [{name: d, wall: "
         "left, "
         "at: 1500}]",
         "over w"}};
    for (const auto& [room, part] : cases)
        EXPECT_NE(refused(room).find(part), std::string::npos) << room << "\n" << refused(room);
}
