#include "output/board/section.h"

#include <gtest/gtest.h>

#include "output/board/layouts.h"
#include "scene/forms/side_wall.h"
#include "scene/model/layout.h"
#include "scene/reading/deliverable_section.h"
#include "scene/reading/layout_reader.h"
#include "tests/support/even_hall.h"
#include "tests/support/test_folder.h"

namespace rakelight {
namespace {

const std::string kWork =
    "panel: {name: tide, size: [200, 150]}\n"
    "fields:\n"
    "  - {name: sun, outline: [[20, 20], [90, 20], [90, 90], [20, 90]], mix: slate, grout: sand, zone: "
    "warm}\n"
    "  - {name: rim, outline: [[100, 20], [150, 20], [150, 90], [100, 90]], mix: slate, grout: sand, zone: "
    "warm}\n"
    "  - {name: sea, mix: aqua, bed: white, joint: 2}\n"
    "lamps:\n"
    "  - {name: left, group: spots, at: [-600, 2500, 900], aim: [0, 1450, 0], lumen: 500}\n"
    "  - {name: right, group: spots, at: [600, 2500, 900], aim: [0, 1450, 0], lumen: 500}\n";

struct Read {
    Layout layout;
    BoardPlan plan;
    std::vector<CellLayout> cells;
    std::string problems;
};

Read board(const std::string& section) {
    const std::string text = kWork + "board:\n" + section;
    Read r{read_layout_text(text, "t.yaml"), {}, {}, {}};
    try {
        read_deliverable(r.layout, "board", [&](Section& in) { r.plan = read_board(in, r.layout); });
        r.cells = lay_out_cells(r.layout, r.plan);
    } catch (const LayoutError& error) {
        r.problems = error.what();
    }
    return r;
}

std::string grout_of(const CellLayout& cell, std::size_t field) {
    return cell.layout.tints.at(cell.layout.fields.at(field).grout.value()).name;
}

TEST(ReadBoard, OneWordVariedByAList) {
    const Read r =
        board("  test piece: {field: sea, size: 60}\n  columns: {grout: [white, charcoal, none]}\n");
    ASSERT_EQ(r.problems, "");
    ASSERT_EQ(r.cells.size(), 3u);
    EXPECT_EQ(r.plan.columns[1].label, "charcoal");
    EXPECT_EQ(r.plan.columns[2].label, "ungrouted");
    EXPECT_EQ(grout_of(r.cells[0], 0), "white");
    EXPECT_FALSE(r.cells[2].layout.fields[0].grout);
    EXPECT_EQ(r.cells[0].layout.panel.width_mm, 60);
    EXPECT_EQ(r.cells[0].geometry, r.cells[1].geometry);
    EXPECT_NE(r.cells[0].geometry, r.cells[2].geometry);  // open joints lie deeper
    EXPECT_NE(r.cells[0].colours, r.cells[1].colours);
    EXPECT_EQ(r.cells[0].light, r.cells[2].light);
}

TEST(ReadBoard, RowsAndColumnsAreCombined) {
    const Read r = board(
        "  part: {at: [10, 10], size: [80, 60], field: sea}\n"
        "  rows: [{finish: cured}, {finish: sealed}, {joint: 3, label: wide}]\n"
        "  columns: [{grout: white}, {set: {fields.sea.grout: charcoal, panel.seed: 4}, label: dark}]\n");
    ASSERT_EQ(r.problems, "");
    ASSERT_EQ(r.cells.size(), 6u);
    EXPECT_EQ(grout_of(r.cells[0], 2), "white");
    EXPECT_EQ(grout_of(r.cells[2], 2), "white, sealed");
    EXPECT_EQ(grout_of(r.cells[3], 2), "charcoal, sealed");
    EXPECT_EQ(r.cells[3].layout.panel.seed, 4u);
    EXPECT_EQ(r.cells[4].layout.fields[2].joint_mm, 3);
    EXPECT_EQ(r.cells[0].layout.fields[2].joint_mm, 2);
    EXPECT_NE(r.cells[0].geometry, r.cells[1].geometry);  // another hand
    EXPECT_NE(r.cells[0].geometry, r.cells[4].geometry);
    // A sealed grout is darker than the bare one: wetting, Lekner and Dorf 1988.
    const auto tint = [&](std::size_t cell) {
        const Layout& layout = r.cells[cell].layout;
        return mean(layout.tints.at(layout.fields[2].grout.value()).reflectance);
    };
    EXPECT_LT(tint(2), tint(0));
}

TEST(ReadBoard, AZoneIsGroutedInOneGo) {
    const Read r = board("  around: sun\n  columns: {grout: [white, charcoal]}\n");
    ASSERT_EQ(r.problems, "");
    EXPECT_EQ(grout_of(r.cells[1], 0), "charcoal");
    EXPECT_EQ(grout_of(r.cells[1], 1), "charcoal");
    EXPECT_EQ(grout_of(r.cells[1], 2), "mid-grey");
    EXPECT_EQ(r.plan.at_mm, glm::dvec2(8, 8));  // 12 mm round the field
    EXPECT_EQ(r.plan.size_mm, glm::dvec2(94, 94));
}

TEST(ReadBoard, LampsAreSwitchedByNameAndGroup) {
    const Read r = board(
        "  test piece: {field: sea}\n  rows: {lamps: [left, spots]}\n  columns: {grout: [white, sand]}\n");
    ASSERT_EQ(r.problems, "");
    EXPECT_EQ(r.cells[0].layout.views.pictures[0].lamps, std::vector<std::string>{"left"});
    EXPECT_EQ(r.cells[2].layout.views.pictures[0].lamps, (std::vector<std::string>{"left", "right"}));
    EXPECT_EQ(r.cells[0].colours, r.cells[2].colours);  // one rendering serves both
    EXPECT_EQ(r.cells[0].light, r.cells[2].light);
}

TEST(ReadBoard, ASetUpOfLightIsAChoiceToo) {
    const Read r = board("  test piece: {field: sea}\n  rows: {light: [own light, wash]}\n");
    ASSERT_EQ(r.problems, "");
    EXPECT_EQ(r.cells[0].layout.on.lamps[0].name, "left");
    EXPECT_NE(r.cells[1].layout.on.lamps[0].name, "left");
    EXPECT_NE(r.cells[0].light, r.cells[1].light);
    EXPECT_NE(
        board("  test piece: {field: sea}\n  rows: {light: [wahs]}\n").problems.find("did you mean wash?"),
        std::string::npos);
}

TEST(ReadBoard, SwappedStockKeepsItsPlace) {
    const Read r = board(
        "  part: {at: [0, 0], size: [200, 150]}\n  columns: [{grout: white}, {swap: {aqua: deep-teal}}]\n");
    ASSERT_EQ(r.problems, "");
    const Field& sea = r.cells[1].layout.fields[2];
    ASSERT_EQ(sea.mix.size(), 1u);
    EXPECT_EQ(r.cells[1].layout.stock[sea.mix[0].material].name, "deep-teal for aqua");
    const auto absorption = [&](std::size_t cell, const std::string& name) {
        for (const Material& m : r.cells[cell].layout.stock)
            if (m.name == name) return m.absorption_per_mm[0];
        return -1.0f;
    };
    EXPECT_GT(absorption(1, "deep-teal for aqua"), absorption(0, "aqua"));
    EXPECT_EQ(r.plan.columns[1].label, "deep-teal for aqua");
}

// Seen from 1 m straight ahead, exactly as wide as the part.
TEST(ReadBoard, TheEyeStandsBeforeThePart) {
    const Read r = board("  part: {at: [20, 30], size: [80, 60]}\n");
    ASSERT_EQ(r.problems, "");
    const Viewpoint& eye = r.cells[0].layout.views.viewpoints[0];
    EXPECT_NEAR(eye.look_at_mm.x, 60 - 100, 1e-9);
    EXPECT_NEAR(eye.look_at_mm.y - 1450, 60 - 75, 1e-9);
    EXPECT_NEAR(eye.eye_mm.z - eye.look_at_mm.z, 1000, 1e-9);
    EXPECT_EQ(eye.view_width_mm, 80);
    EXPECT_EQ(r.cells[0].layout.views.pictures[0].height_px * 4,
              r.cells[0].layout.views.pictures[0].width_px * 3);
}

TEST(ReadBoard, WrongWordsAreAllReportedWithTheirPlaces) {
    std::string hundred = "{joint: [";
    for (int i = 1; i <= 100; ++i) hundred += (i > 1 ? ", " : "") + std::to_string(i) + "e-1";
    hundred += "]}";
    const std::string test_piece = "  test piece: {field: sea, size: 60}\n";
    const struct {
        std::string section, said;
    } cases[] = {
        {test_piece + "  columns: [{set: {fields.see.grout: white}}]\n", "did you mean sea?"},
        {test_piece + "  columns: [{set: {fields.sea.grut: white}}]\n",
         "t.yaml:11:20: fields[3].grut: found the unknown key"},
        {test_piece + "  columns: [{set: {fields.sea.grut: white}}]\n", "did you mean grout?"},
        {test_piece + "  columns: {grout: [whit]}\n", "t.yaml:11:21: fields[3].grout"},
        {test_piece + "  columns: {grout: [whit]}\n", "did you mean white?"},
        {test_piece + "  columns: {grout: [white, white]}\n",
         "t.yaml:11:28: board.columns.grout[2]: found the label \"white\" again"},
        {test_piece + "  columns: [{grout: white, label: a}, {grout: sand, label: a}]\n",
         "found the label \"a\" again"},
        {test_piece + "  columns: {gruot: [white]}\n", "did you mean grout?"},
        {test_piece + "  columns: {grout: white}\n", "expected a list of choices"},
        {test_piece + "  rows: " + hundred + "\n  columns: " + hundred + "\n",
         "10000 cells, expected at most 144"},
        {test_piece + "  rows: {lamps: [lefft]}\n", "did you mean left?"},
        {test_piece + "  aim: show flaw\n", "did you mean show flow?"},
        {test_piece + "  columns: {grout: [white, sand]}\n  reference: sandy\n", "did you mean sand?"},
        {test_piece + "  pixels: 2000\n  columns: " + hundred + "\n", "expected at most 80 million pixels"},
        {"  part: {at: [0, 0], size: [10, 150]}\n  pixels: 2000\n  columns: {grout: [white, sand]}\n",
         "cells of 2000 x 30000 pixels"},
        {test_piece + "  rows: 3\n", "board.rows: found"},
        {test_piece + "  rows: {lamps: []}\n", "board.rows: found no choices"},
        {test_piece + "  columns: []\n", "board.columns: found no choices"},
        {test_piece + "  rows: [{lamps: []}]\n", "found no lamps"},
        {test_piece + "  columns: {}\n", "found 0 keys"},
        {test_piece + "  columns: {grout: [[white]]}\n", "expected a word or a number"},
        {test_piece + "  viewing distance: 8 m\n", "expected one within the room"},
        {test_piece + "  columns: [{swap: {aqau: slate}}]\n", "did you mean aqua?"},
        {test_piece + "  columns: [{swap: {aqua: slaet}}]\n", "did you mean slate?"},
        {"  test piece: {field: see}\n", "did you mean sea?"},
        {"  test piece: {field: sea, size: 5}\n", "board.test piece.size"},
        {"  part: {at: [150, 10], size: [80, 60]}\n", "expected one on the panel of 200 x 150 mm"},
        {"  part: {at: [-1, 10], size: [80, 60]}\n", "t.yaml:10:9: board.part"},
        {"  columns: {grout: [white]}\n", "expected one of test piece, part and around"},
        {test_piece + "  around: sea\n", "found 2 parts"},
        {test_piece + "  colums: {grout: [white]}\n", "did you mean columns?"},
        {test_piece + "  columns: {grout: [whit]}\n  rows: {bed: [blakc]}\n", "did you mean black?"},
        {test_piece + "  columns: {grout: [whit]}\n  rows: {bed: [blakc]}\n", "did you mean white?"},
    };
    for (const auto& c : cases) {
        const std::string said = board(c.section).problems;
        EXPECT_NE(said.find(c.said), std::string::npos) << c.section << "\n" << said;
    }
}

}  // namespace
// Light from all round is a group of its own that cells choose by name, and another unit is another light.
TEST(ReadBoard, CellsChooseLightFromAllRound) {
    const test::Folder folder;
    folder.write("hall.hdr", test::even_hall_hdr());
    const std::string file = (folder / "t.yaml").string();
    const Layout layout = read_layout_text(
        kWork + "light all round: {picture: hall.hdr, unit: 50, name: hall, group: day}\n" +
            "board: {test piece: {field: sea}, rows: {lamps: [day, spots]}, columns: "
            "[{grout: white}, {grout: white, set: {light all round.unit: 80}, label: bright}]}\n",
        file);
    BoardPlan plan;
    read_deliverable(layout, "board", [&](Section& in) { plan = read_board(in, layout); });
    const std::vector<CellLayout> cells = lay_out_cells(layout, plan);
    ASSERT_EQ(cells.size(), 4u);
    EXPECT_EQ(cells[0].layout.views.pictures[0].lamps, std::vector<std::string>{"hall"});
    EXPECT_EQ(cells[0].layout.on.all_round->group, "hall");
    EXPECT_NE(cells[0].light, cells[1].light);
    EXPECT_EQ(cells[1].layout.on.all_round->unit_cd_per_m2, 80);
}

}  // namespace rakelight
