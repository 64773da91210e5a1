// What a room usually has fits round what is there, and what is said stays as it is said.
#include "scene/model/layout.h"
#include "scene/room/usual_furnishing.h"

#include <gtest/gtest.h>

#include "scene/geometry/solid.h"
#include "scene/reading/layout_reader.h"
#include "scene/room/doors.h"
#include "scene/room/furnishing_check.h"
#include "scene/room/furniture_forms.h"
#include "scene/room/skirting.h"
#include "tests/support/mesh_checks.h"

using namespace rakelight;

namespace {

Layout room(const std::string& said = "size: [5200, 5600, 3000]", const std::string& panel = "[600, 450]") {
    return read_layout_text(
        "panel: {size: " + panel + "}\nfields: [{name: all, piece: 60, mix: slate}]\nroom: {" + said + "}\n",
        "room.yaml");
}

Layout furnished(Layout layout, std::vector<StandInPlace> stand_ins = {}) {
    furnish(layout, stand_ins);
    return layout;
}

double length_of(const std::vector<FaceArea>& skirting) {
    double mm = 0;
    for (const FaceArea& a : skirting) mm += a.high_mm.x - a.low_mm.x;
    return mm;
}

}  // namespace

TEST(Furnish, GivesABareRoomWhatRoomsHave) {
    const Layout bare = room();
    EXPECT_FALSE(bare.room.board_mm);
    EXPECT_TRUE(bare.room.doors.empty());
    const Layout full = furnished(bare);
    EXPECT_EQ(full.room.board_mm, kUsualBoard_mm);
    EXPECT_EQ(full.room.skirting_mm, kUsualSkirting_mm);
    ASSERT_EQ(full.room.doors.size(), 1u);
    EXPECT_EQ(why_no_door(full.room.doors[0], bare, {}), "");
    ASSERT_EQ(full.room.furniture.size(), 2u);
    for (const Furniture& piece : full.room.furniture) EXPECT_EQ(why_no_furniture(piece, bare), "");
    EXPECT_EQ(full.stock[full.room.joinery.value()].name, "gallery-white");
    EXPECT_EQ(full.stock[full.room.doors[0].handle].name, "deep-grey");
}

TEST(Furnish, KeepsWhatIsSaid) {
    const Layout said = room("boards: 0, skirting: 150, joinery: oak, doors: [], furniture: []");
    const Layout full = furnished(said);
    EXPECT_EQ(full.room.board_mm, 0);
    EXPECT_EQ(full.room.skirting_mm, 150);
    EXPECT_TRUE(full.room.doors.empty());
    EXPECT_TRUE(full.room.furniture.empty());
    EXPECT_EQ(full.stock[full.room.joinery.value()].name, "oak");
    EXPECT_EQ(furnished(room("floor: concrete")).room.board_mm, 0);  // boards are of timber
}

TEST(Furnish, LeavesOutWhatDoesNotFit) {
    const Layout small = furnished(room("size: [1600, 2000, 2400]"));
    EXPECT_TRUE(small.room.doors.empty());
    // The work hangs down to 300 mm: no bench under it, one before it.
    const Layout low = furnished(room("size: [5200, 5600, 3000]", "[1200, 2200]"));
    for (const Furniture& piece : low.room.furniture)
        EXPECT_EQ(why_no_furniture(piece, low), "") << piece.name;
    EXPECT_GT(low.room.furniture.at(0).at_mm.z, 1000);
    // Nothing stands in a figure or in other furniture, nor before the door.
    const StandInPlace figure{StandIn::figure, {0, 250}, 0, 0};
    const Layout beside = furnished(room(), {figure});
    const auto [low_mm, high_mm] = corners_of(box_round(figure));
    for (const Furniture& piece : beside.room.furniture) {
        const auto [a, b] = corners_of(piece);
        EXPECT_FALSE(glm::all(glm::lessThan(a, high_mm)) && glm::all(glm::lessThan(low_mm, b)));
    }
}

TEST(Furniture, FillsItsSizeWithClosedSolids) {
    for (const FurnitureForm form :
         {FurnitureForm::box, FurnitureForm::bench, FurnitureForm::table, FurnitureForm::chair}) {
        const glm::dvec3 size = usual_size_mm(form);
        for (const Mesh& board : furniture_boards(form, size)) EXPECT_GT(volume_mm3(board), 0);
        const Mesh mesh = furniture_mesh(form, size);
        expect_good_normals(mesh);
        EXPECT_GT(volume_mm3(mesh), 0);
        glm::vec3 low(1e9f), high(-1e9f);
        for (const auto& p : mesh.positions_mm) low = glm::min(low, p), high = glm::max(high, p);
        for (int axis = 0; axis < 3; ++axis) EXPECT_NEAR(high[axis] - low[axis], size[axis], 0.01);
        EXPECT_NEAR(low.y, 0, 1e-3);
    }
}

TEST(Skirting, RunsRoundTheRoomButForDoors) {
    Layout layout = room("doors: [{name: hall, at: -1500}]");
    const double wall = layout.room.width_mm, door = 830 + 2 * (3 + 70);  // leaf, gaps and architraves
    EXPECT_NEAR(length_of(skirting_of(layout, RoomFace::panel, 90)), wall - door, 1e-6);
    EXPECT_NEAR(length_of(skirting_of(layout, RoomFace::opposite, 90)), wall, 1e-6);
    EXPECT_NEAR(length_of(skirting_of(layout, RoomFace::left, 90)), layout.room.depth_mm, 1e-6);
    for (const Mesh& mesh : skirting_meshes(layout, 90)) expect_closed(mesh);
    EXPECT_TRUE(skirting_meshes(layout, 0).empty());
}

TEST(Doors, StandInTheirWallAndInTheRoom) {
    const Layout layout = room("doors: [{name: side, wall: right, at: 2000}]");
    const DoorParts parts = door_parts(layout.room, layout.room.doors.at(0));
    for (const Mesh* mesh : {&parts.leaf, &parts.frame, &parts.handle})
        for (const glm::vec3& p : mesh->positions_mm) {
            EXPECT_LE(p.x, 2500.01);
            EXPECT_GE(p.x, 2400);
            EXPECT_NEAR(p.z, 2000, (830 + 2 * 73) / 2.0 + 1e-3);
            EXPECT_GE(p.y, -1e-3);
        }
}
