// Piece tables: what is written is read back to the bit, what is edited by hand is kept, what is wrong is
// told.
#include "scene/pieces/piece_table.h"
#include "scene/model/layout.h"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <set>

#include "scene/geometry/region.h"
#include "scene/model/levels.h"
#include "scene/reading/layout_reader.h"
#include "scene/text/csv.h"
#include "scene/world/world.h"
#include "tests/support/refusal.h"
#include "tests/support/test_folder.h"

namespace rakelight {
namespace {

constexpr const char* kLayout =
    "panel: {name: Shelf, size: [160, 120], seed: 5}\n"
    "stones: [{material: pumice, at: [40, 40], size: [30, 24, 20], turn: 33.3, proud: 9}]\n"
    "fields:\n"
    "  - {name: \"bay, inner\", outline: [[70, 30], [150, 30], [150, 100], [70, 100]], opus: palladianum, "
    "piece: 16,"
    " mix: {slate: 50 %, basalt: 50 %}, joint: 2, tilt: 3}\n"
    "  - {name: sea, guides: [{smooth: [[0, 20], [80, 60], [160, 30]]}], opus: musivum, piece: [11, 8],"
    " mix: {deep-teal: 60 %, aqua: 40 %}, bed: white}\n";

// Every form, pebbles, drawn shapes, domes and faces turned on purpose.
constexpr const char* kForms =
    "panel: {name: Forms, size: [180, 90], seed: 3}\n"
    "fields:\n"
    "  - {name: a, outline: [[0, 0], [30, 0], [30, 90], [0, 90]], mix: sky, form: sawn, dome: 0.3}\n"
    "  - {name: b, outline: [[30, 0], [60, 0], [60, 90], [30, 90]], mix: sky, form: nipped, setting: "
    "direct smalti}\n"
    "  - {name: c, outline: [[60, 0], [90, 0], [90, 30], [60, 30]], mix: slate, form: riven}\n"
    "  - {name: d, outline: [[60, 30], [90, 30], [90, 60], [60, 60]], mix: coral, form: tumbled}\n"
    "  - {name: e, outline: [[60, 60], [90, 60], [90, 90], [60, 90]], mix: slag, form: chunk}\n"
    "  - {name: f, outline: [[90, 0], [120, 0], [120, 90], [90, 90]], mix: aqua, form: fused edge, dome: 1.8,"
    " setting: catching light, lean towards: {point: [0, 2500, 900]}}\n"
    "  - {name: g, outline: [[120, 0], [150, 0], [150, 90], [120, 90]], opus: pebbles, mix: river-stone}\n"
    "  - {name: h, opus: sectile, joint: 0.4, mix: jet, shapes: [[[152, 10], [176, 10], [164, 60]]]}\n";

class PieceTable : public ::testing::Test {
  protected:
    Layout with(const std::string& name, const std::string& text) const {
        return read_layout_text(kLayout, "shelf.yaml", folder_.write(name, text));
    }
    std::string problems(const std::string& name, const std::string& text) const {
        return refusal_of([&] { lay(with(name, text)); });
    }

    test::Folder folder_;
    Layout layout_ = read_layout_text(kLayout, "shelf.yaml");
    Laying laying_ = lay(layout_);
    std::vector<PieceFacts> facts_ = piece_facts(layout_.stock, laying_);
    std::string csv_ = piece_table_csv(layout_, laying_, facts_);
    std::string json_ = piece_table_json(layout_, laying_, facts_);
};

void expect_same(const Laying& a, const Laying& b) {
    ASSERT_EQ(a.pieces.size(), b.pieces.size());
    for (std::size_t i = 0; i < a.pieces.size(); ++i) {
        const Piece &p = a.pieces[i], &q = b.pieces[i];
        EXPECT_EQ(p.outline_mm, q.outline_mm);
        EXPECT_EQ(p.field, q.field);
        EXPECT_EQ(p.material, q.material);
        EXPECT_EQ(p.thickness_mm, q.thickness_mm);
        EXPECT_EQ(p.top_mm, q.top_mm);
        EXPECT_EQ(p.tilt_rad, q.tilt_rad);
        EXPECT_EQ(p.along, q.along);
        EXPECT_EQ(p.seed, q.seed);
        EXPECT_EQ(p.number, q.number);
        EXPECT_EQ(p.form, q.form);
        EXPECT_EQ(p.dome_mm, q.dome_mm);
    }
    ASSERT_EQ(a.stones.size(), b.stones.size());
    for (std::size_t i = 0; i < a.stones.size(); ++i) {
        EXPECT_EQ(a.stones[i].footprint_mm, b.stones[i].footprint_mm);
        EXPECT_EQ(a.stones[i].top_mm, b.stones[i].top_mm);
        EXPECT_EQ(a.stones[i].stone.proud_mm, b.stones[i].stone.proud_mm);
        EXPECT_EQ(a.stones[i].stone.turn_deg, b.stones[i].stone.turn_deg);
        EXPECT_EQ(a.stones[i].stone.seed, b.stones[i].stone.seed);
    }
}

TEST_F(PieceTable, ReadsBackToTheBit) {
    for (const auto& [name, text] : {std::pair{"p.csv", csv_}, {"p.json", json_}}) {
        const Layout again = with(name, text);
        const Laying listed = lay(again);
        expect_same(laying_, listed);
        EXPECT_EQ(listed.warnings, laying_.warnings);
        EXPECT_EQ(piece_table_csv(again, listed, piece_facts(again.stock, listed)), csv_);
        EXPECT_EQ(piece_table_json(again, listed, piece_facts(again.stock, listed)), json_);
    }
}

void expect_same(const World& a, const World& b) {
    EXPECT_EQ(a.positions_mm, b.positions_mm);
    EXPECT_EQ(a.triangles, b.triangles);
    ASSERT_EQ(a.objects.size(), b.objects.size());
    for (std::size_t i = 0; i < a.objects.size(); ++i) {
        EXPECT_EQ(a.objects[i].surface, b.objects[i].surface);
        EXPECT_EQ(a.objects[i].seed, b.objects[i].seed);
        EXPECT_EQ(a.objects[i].along, b.objects[i].along);
        EXPECT_EQ(a.objects[i].material, b.objects[i].material);
    }
}

TEST_F(PieceTable, MakesTheSameWorld) {
    const Layout again = with("p.csv", csv_);
    expect_same(build_world(layout_, laying_), build_world(again, lay(again)));
}

TEST_F(PieceTable, FormsComeBackToTheBit) {
    const Layout layout = read_layout_text(kForms, "forms.yaml");
    const Laying laying = lay(layout);
    std::set<PieceForm> forms;
    for (const Piece& piece : laying.pieces) forms.insert(piece.form);
    EXPECT_EQ(forms.size(), 7u);
    const auto facts = piece_facts(layout.stock, laying);
    const World world = build_world(layout, laying);
    for (const auto& [name, text] : {std::pair{"f.csv", piece_table_csv(layout, laying, facts)},
                                     {"f.json", piece_table_json(layout, laying, facts)}}) {
        const Layout again = read_layout_text(kForms, "forms.yaml", folder_.write(name, text));
        const Laying listed = lay(again);
        expect_same(laying, listed);
        expect_same(world, build_world(again, listed));
    }
}

TEST_F(PieceTable, ARowIsFormedAsItsFieldUnlessItSaysOtherwise) {
    const auto rows = [&](const char* text) {
        return lay(read_layout_text(kForms, "forms.yaml", folder_.write("few.csv", text)));
    };
    const Laying laying = rows(
        "field,material,form,dome_mm,outline_mm\n"
        "a,sky,,,2 2;12 2;12 12;2 12\n"
        "a,sky,nipped,1.5,14 2;24 2;24 12;14 12\n"
        "g,river-stone,,,122 2;132 2;132 12;122 12\n");
    ASSERT_EQ(laying.pieces.size(), 3u);
    EXPECT_EQ(laying.pieces[0].form, PieceForm::sawn);
    EXPECT_EQ(laying.pieces[0].dome_mm, 0.3);
    EXPECT_EQ(laying.pieces[1].form, PieceForm::nipped);
    EXPECT_EQ(laying.pieces[1].dome_mm, 1.5);
    EXPECT_NEAR(laying.pieces[1].top_mm - laying.pieces[0].top_mm, 1.2,
                1e-9);  // each stands its dome above the plane
    // A pebble by its field, two thirds of its height below the joint.
    const Piece& pebble = laying.pieces[2];
    const Layout layout = read_layout_text(kForms, "forms.yaml");
    const double joint = face_plane_mm(layout) - layout.fields[6].recess_mm;
    EXPECT_EQ(pebble.form, PieceForm::pebble);
    EXPECT_NEAR(pebble.top_mm - joint, pebble.thickness_mm / 3, 1e-9);
    const std::string told = refusal_of([&] {
        rows(
            "field,material,form,dome_mm,outline_mm\na,sky,nippled,21,2 2;12 2;12 12\n,sky,sawn,,2 2;9 2;9 "
            "9\n");
    });
    for (const char* part :
         {"few.csv:2:7: form: found \"nippled\"", "did you mean nipped?",
          "few.csv:2:15: dome_mm: found 21, expected 0 to 20", "few.csv:3:1: field: found nothing"})
        EXPECT_NE(told.find(part), std::string::npos) << part << '\n' << told;
}

TEST_F(PieceTable, TheKeyOfTheLayoutIsRelativeToIt) {
    folder_.write("by-hand.csv", csv_);
    const auto file = folder_.write("shelf.yaml", std::string(kLayout) + "pieces: by-hand.csv\n");
    expect_same(laying_, lay(read_layout(file)));
}

// Rows of a table, to edit as a spreadsheet would.
struct Sheet {
    std::vector<std::vector<std::string>> rows;
    explicit Sheet(const std::string& csv) {
        CsvReader reader(csv);
        std::vector<CsvCell> cells;
        while (reader.next(cells)) {
            rows.emplace_back();
            for (const auto& cell : cells) rows.back().push_back(cell.text);
        }
    }
    std::string& at(std::size_t row, const std::string& column) {
        const auto& names = rows[0];
        return rows[row]
                   [static_cast<std::size_t>(std::find(names.begin(), names.end(), column) - names.begin())];
    }
    std::string text() const {
        std::string out;
        for (const auto& row : rows) {
            for (std::size_t i = 0; i < row.size(); ++i) {
                if (i) out += ',';
                append_csv(out, row[i]);
            }
            out += '\n';
        }
        return out;
    }
};

TEST_F(PieceTable, HandEditsSurvive) {
    Sheet sheet(csv_);
    const std::size_t last = sheet.rows.size() - 1;
    // Moved by its centre, recoloured with something the layout does not use, deleted, added.
    sheet.at(2, "x_mm") = std::to_string(std::stod(sheet.at(2, "x_mm")) + 0.25);
    sheet.at(3, "material") = "ruby";
    std::vector<std::string> added(sheet.rows[0].size());
    sheet.rows.erase(sheet.rows.begin() + 4);
    sheet.rows.push_back(added);
    sheet.at(last, "field") = "sea";
    sheet.at(last, "material") = "aqua";
    sheet.at(last, "outline_mm") = "1 1; 1 5; 6 5; 6 1";  // clockwise
    const Layout edited = with("edited.csv", sheet.text());
    const Laying by_hand = lay(edited);
    ASSERT_EQ(by_hand.pieces.size(), laying_.pieces.size());
    for (std::size_t i = 0; i < laying_.pieces[0].outline_mm.size(); ++i) {
        EXPECT_NEAR(by_hand.pieces[0].outline_mm[i].x - laying_.pieces[0].outline_mm[i].x, 0.25, 1e-9);
        EXPECT_EQ(by_hand.pieces[0].outline_mm[i].y, laying_.pieces[0].outline_mm[i].y);
    }
    EXPECT_EQ(edited.stock[by_hand.pieces[1].material].name, "ruby");
    EXPECT_EQ(by_hand.pieces[2].seed, laying_.pieces[3].seed);
    EXPECT_EQ(by_hand.pieces[2].number, laying_.pieces[3].number);  // a gap in the numbers stays
    const Piece& fresh = by_hand.pieces.back();
    EXPECT_EQ(fresh.number, laying_.pieces.back().number + 1);
    EXPECT_EQ(fresh.thickness_mm, 6);  // of aqua
    EXPECT_EQ(area_mm2(fresh.outline_mm), 20);
    EXPECT_EQ(fresh.along, glm::dvec2(1, 0));
    // It lies over the piece in that corner.
    ASSERT_FALSE(by_hand.warnings.empty());
    EXPECT_NE(by_hand.warnings.back().find("edited.csv:" + std::to_string(last + 1) + ":1: sea#"),
              std::string::npos)
        << by_hand.warnings.back();
    EXPECT_NE(by_hand.warnings.back().find("overlap by"), std::string::npos);
}

TEST_F(PieceTable, TellsAllThatIsWrongInCells) {
    const std::string told = problems("bad.csv",
                                      "field,material,outline_mm,thickness_mm,seed\n"
                                      "see,aqua,0 0;5 0;5 5,6,\n"
                                      "sea,aqau,0 0;5 0;5 5,\"6,5\",\n"
                                      "sea,aqua,0 0;5;5 5,6,12\n"
                                      "sea,aqua,0 0;5 0;5 5,0,s12\n"
                                      "sea,aqua\n");
    for (const char* part :
         {"bad.csv:2:1: field: found \"see\", expected one of bay, inner, sea; did you mean sea?",
          "bad.csv:3:1: material: found \"aqau\", expected a material of the stock; did you mean aqua?",
          "bad.csv:3:22: thickness_mm: found \"6,5\", expected a number with a decimal point",
          "bad.csv:4:10: outline_mm: found \"5\" at point 2", "bad.csv:4:22: seed: found \"12\"",
          "bad.csv:5:22: thickness_mm: found 0, expected 0.1 to 1000",
          "bad.csv:6:1: found 2 cells, expected 5"})
        EXPECT_NE(told.find(part), std::string::npos) << part << "\n" << told;
    EXPECT_NE(problems("heading.csv", "field,materiel,outline_mm\n").find("did you mean material?"),
              std::string::npos);
    EXPECT_NE(problems("empty.csv", "").find("empty table"), std::string::npos);
    EXPECT_NE(
        problems("quote.csv", "field,material,outline_mm\nsea,\"aqua,0 0;5 0;5 5\n").find("quote.csv:2:"),
        std::string::npos);
}

TEST_F(PieceTable, TellsAllThatCannotBeLaid) {
    const std::string told = problems("bad.csv",
                                      "field,material,outline_mm,number,height_mm\n"
                                      "sea,aqua,0 0;10 10;10 0;0 10,,\n"
                                      "sea,aqua,0 0;5 0,,\n"
                                      "sea,aqua,150 0;165 0;150 5,,\n"
                                      "sea,aqua,0 0;9 0;9 1;1 1;1 9;9 9;9 10;0 10,,\n"
                                      "sea,aqua,20 20;25 20;25 25,7,2\n"
                                      "sea,aqua,30 20;35 20;35 25,7,\n");
    for (const char* part :
         {"bad.csv:2:1: outline_mm: found an outline that crosses itself at [5.00, 5.00] mm",
          "bad.csv:3:1: outline_mm: found 2 points, expected three or more",
          "bad.csv:4:1: outline_mm: found [165.00, 0.00] off the panel, expected [0, 0] to [160, 120] mm",
          "bad.csv:5:1: outline_mm: found an outline that bends too far for one piece",
          "bad.csv:6:1: height_mm: found a face 2 mm above the substrate",
          "bad.csv:7:1: number: found 7 again in sea"})
        EXPECT_NE(told.find(part), std::string::npos) << part << "\n" << told;
}

TEST_F(PieceTable, JsonProblemsHaveThePathOfTheirKey) {
    auto table = nlohmann::json::parse(json_);
    table["pieces"][2]["material"] = "slat";
    table["pieces"][3]["outline_mm"][1] = {1, 2, 3};
    table["pieces"][4]["colour"] = "red";
    table["stones"][0]["seed"] = 3;
    const std::string told = problems("bad.json", table.dump());
    for (const char* part :
         {"pieces[3].material: found \"slat\", expected a material of the stock; did you mean slate?",
          "pieces[4].outline_mm[2]: found \"[1,2,3]\", expected [x, y]",
          "pieces[5].colour: found the unknown key", "stones[1].seed: found \"3\""})
        EXPECT_NE(told.find(part), std::string::npos) << part << "\n" << told;
    EXPECT_NE(problems("cut.json", "{\n \"format\": ").find("cut.json:2:"), std::string::npos);
    EXPECT_NE(problems("list.json", "[1]").find("found no format, expected \"rakelight pieces\""),
              std::string::npos);
    EXPECT_NE(problems("word.json", "x").find("found no JSON at \"x\", expected a piece table"),
              std::string::npos);
    EXPECT_NE(problems("kind.json", R"({"format": "rakelight board"})")
                  .find("format: found \"rakelight board\", expected \"rakelight pieces\""),
              std::string::npos);
    EXPECT_NE(problems("new.json", R"({"format": "rakelight pieces", "version": 9})")
                  .find("version: found \"9\", expected 1"),
              std::string::npos);
    EXPECT_NE(
        problems("old.json", R"({"format": "rakelight pieces"})").find("version: found none, expected 1"),
        std::string::npos);
}

TEST_F(PieceTable, AMissingTableIsToldByItsKey) {
    const std::string told =
        refusal_of([] { read_layout_text(std::string(kLayout) + "pieces: gone.csv\n", "shelf.yaml"); });
    EXPECT_NE(told.find("pieces: found no such file"), std::string::npos) << told;
}

// A piece weighs at most its prism, and not much less: arrises are rounded, corners chipped.
TEST_F(PieceTable, MassIsThatOfTheMesh) {
    for (std::size_t i = 0; i < laying_.pieces.size(); ++i) {
        const Material& m = layout_.stock[laying_.pieces[i].material];
        const double prism = facts_[i].area_mm2 * laying_.pieces[i].thickness_mm *
                             static_cast<double>(m.density_g_per_cm3) / 1000;
        EXPECT_LT(facts_[i].mass_g, 1.1 * prism);
        EXPECT_GT(facts_[i].mass_g, 0.6 * prism);
    }
}

// Numbers and pieces of a field stay when another field changes.
TEST_F(PieceTable, AnotherFieldLeavesNumbersAlone) {
    Layout other = layout_;
    other.fields[1].piece_length_mm = 9;
    const Laying again = lay(other);
    for (std::size_t i = 0; i < again.pieces.size() && again.pieces[i].field == 0; ++i) {
        EXPECT_EQ(again.pieces[i].number, laying_.pieces[i].number);
        EXPECT_EQ(again.pieces[i].outline_mm, laying_.pieces[i].outline_mm);
    }
}

}  // namespace
}  // namespace rakelight
