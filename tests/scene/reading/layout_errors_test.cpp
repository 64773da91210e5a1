// A table of bad layouts: each must be refused at the right place, under the right key, in helpful words.
#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

#include "scene/reading/layout_reader.h"
#include "tests/support/layout_samples.h"
#include "tests/support/refusal.h"
#include "tests/support/test_folder.h"

namespace rakelight {
namespace {

struct Case {
    /// The place of the problem is marked by a section sign, which is taken out before reading. Texts that do
    /// not start with "panel" follow a good panel and a good field.
    std::string text;
    std::string key;
    std::string words;
};

const std::string kMark = "§";
const std::string kGoodHead = "panel: {size: [600, 450]}\nfields: [{name: all, mix: slate}]\n";

std::string panel(const std::string& rest) {
    return "panel: {" + rest + "}\nfields: [{name: all, mix: slate}]\n";
}
std::string field(const std::string& rest) {
    return "panel: {size: [600, 450]}\nfields:\n  - {name: all, mix: slate, " + rest + "}\n";
}
std::string lamp(const std::string& rest) {
    return "lamps:\n  - {name: a, aim: [0, 1450, 0], " + rest + "}\n";
}

const std::vector<Case> kCases = {
    // keys
    {"§lampz: []\n", "lampz", "did you mean lamps?"},
    {panel("size: [600, 450], §sead: 3"), "panel.sead", "did you mean seed?"},
    {panel("size: [600, 450], seed: 1, §seed: 2"), "panel.seed", "again"},
    {field("§rows_at: 3"), "fields[1].rows_at", "did you mean rows at?"},
    {"stock: {a: {like: slate, §tonespread: 3 %}}\n", "stock.a.tonespread", "did you mean tone spread?"},
    // shapes
    {"panel: §[1, 2]\nfields: [{name: all, mix: slate}]\n", "panel", "found a list of 2, expected a mapping"},
    {"panel: §wide\nfields: [{name: all, mix: slate}]\n", "panel", "found \"wide\", expected a mapping"},
    {panel("size: §600"), "panel.size", "expected a list of 2 numbers"},
    {panel("size: §[600, 450, 20]"), "panel.size", "found a list of 3"},
    {"panel: §{name: x}\nfields: [{name: all, mix: slate}]\n", "panel.size", "found nothing"},
    {"panel: {§size: }\nfields: [{name: all, mix: slate}]\n", "panel.size", "found nothing"},
    {panel("size: [600, §[450]]"), "panel.size", "found a list of 1, expected a length"},
    {"panel: {size: [600, 450]}\nfields: §{name: all}\n", "fields", "expected a list of mappings"},
    {"panel: {size: [600, 450]}\nfields: §[]\n", "fields", "empty list"},
    {"panel: {size: [600, 450]}\nfields:\n  - §slate\n", "fields[1]", "expected a mapping"},
    {"lamps: §[]\n", "lamps", "empty list"},
    {"§panel: {size: [600, 450]}\n", "fields", "found nothing"},
    // numbers and units
    {panel("size: [§wide, 450]"), "panel.size", "expected a length (mm, cm, m, in, ft)"},
    {panel("size: [§600 mn, 450]"), "panel.size", "did you mean mm?"},
    {panel("size: [§24 lb, 450]"), "panel.size", "found \"24 lb\", expected a length"},
    {panel("size: [§-600, 450]"), "panel.size", "expected 20 to 10000 mm"},
    {panel("size: [600, §0]"), "panel.size", "expected 20 to 10000 mm"},
    {panel("size: [§.nan, 450]"), "panel.size", "found \".nan\""},
    {panel("size: [§.inf, 450]"), "panel.size", "found \".inf\""},
    {panel("size: [§nan, 450]"), "panel.size", "found \"nan\""},
    {panel("size: [§inf, 450]"), "panel.size", "found \"inf\""},
    {panel("size: [§1e400, 450]"), "panel.size", "found \"1e400\""},
    {panel("size: [600, 450], seed: §1.5"), "panel.seed", "whole number"},
    {panel("size: [600, 450], seed: §-1"), "panel.seed", "expected 0 to"},
    {field("tilt: §2 mm"), "fields[1].tilt", "expected an angle (deg, rad)"},
    {field("halo: §many"), "fields[1].halo", "expected a number without a unit"},
    {field("piece: §0"), "fields[1].piece", "expected 0.5 to 3000 mm"},
    {field("piece: [12, §-9]"), "fields[1].piece", "expected 0.5 to 3000 mm"},
    {field("joint: §-1"), "fields[1].joint", "expected 0 to 50 mm"},
    {field("recess: §40"), "fields[1].recess", "thick"},
    // words and names
    {field("opus: §muzivum"), "fields[1].opus", "did you mean musivum?"},
    {"panel: {size: [600, 450]}\nfields: [{name: all, mix: §slat}]\n", "fields[1].mix",
     "did you mean slate?"},
    {"panel: {size: [600, 450]}\nfields: [{name: all, mix: {slate: 50 %, §pumise: 50 %}}]\n",
     "fields[1].mix.pumise", "did you mean pumice?"},
    {field("grout: §charcole"), "fields[1].grout", "did you mean charcoal?"},
    {field("bed: §nothing-known"), "fields[1].bed", "expected the name of a tint"},
    {"panel: {size: [600, 450]}\nfields:\n  - {name: a, mix: slate}\n  - {name: §a, mix: slate}\n",
     "fields[2].name", "again"},
    {"panel: {size: [600, 450]}\nfields: [§{mix: slate}]\n", "fields[1].name", "found nothing"},
    {"panel: {size: [600, 450]}\nfields: [§{name: all}]\n", "fields[1].mix", "found nothing"},
    {"panel: {size: [600, 450]}\nfields:\n  - {name: a, mix: slate, grout: charcoal, zone: w}\n"
     "  - {name: b, mix: slate, grout: none, zone: §w}\n",
     "fields[2].zone", "expected charcoal as in the field a"},
    // shares
    {"panel: {size: [600, 450]}\nfields: [{name: all, mix: §{slate: 70 %, pumice: 20 %}}]\n", "fields[1].mix",
     "sum to 90 %, expected 100 %"},
    {"panel: {size: [600, 450]}\nfields: [{name: all, mix: {slate: §70, pumice: 30 %}}]\n",
     "fields[1].mix.slate", "expected 0 % to 100 %"},
    {"panel: {size: [600, 450]}\nfields: [{name: all, mix: §[slate, pumice]}]\n", "fields[1].mix",
     "materials with their shares"},
    // strokes
    {field("outline: §[[0, 0], [100, 100], [100, 0], [0, 100]]"), "fields[1].outline",
     "crosses itself near [50.0, 50.0] mm"},
    {field("outline: §{smooth: [[0, 0], [100, 100], [100, 0], [0, 100]]}"), "fields[1].outline",
     "crosses itself near"},
    {field("outline: §[[0, 0], [100, 100]]"), "fields[1].outline",
     "found 2 different points, expected at least 3"},
    {field("outline: §[[5, 5], [5, 5], [5, 5], [5, 5]]"), "fields[1].outline", "found 1 different points"},
    {field("outline: §[[0, 0], [100, 0], [50, 0]]"), "fields[1].outline", "crosses itself"},
    {field("outline: §[[700, 0], [800, 0], [800, 100]]"), "fields[1].outline", "off the panel"},
    {field("outline: §{smoth: [[0, 0], [9, 0], [9, 9]]}"), "fields[1].outline",
     "found no points, expected a list of points, or smooth, straight or closed smooth with one"},
    {field("outline: {§smoth: [[0, 0], [9, 0], [9, 9]]}"), "fields[1].outline.smoth", "did you mean smooth?"},
    {field("outline: §round"), "fields[1].outline", "expected a list of points"},
    {field("outline: [[0, 0], §[1, 2, 3], [9, 9]]"), "fields[1].outline", "expected a list of 2 numbers"},
    {field("guides: [§[[3, 3], [3, 3]]]"), "fields[1].guides[1]",
     "found 1 different points, expected at least 2"},
    {field("guides: [§{smooth: [[0, 0], [9, 9]], straight: [[0, 0], [9, 9]]}]"), "fields[1].guides[1]",
     "several"},
    {field("guides: [[[0, 0], [9, 9]], §[]]"), "fields[1].guides[2]", "found 0 different points"},
    {field("guides: [§{closed straight: [[0, 0], [9, 9]]}]"), "fields[1].guides[1]", "at least 3"},
    {"panel: {size: [10 m, 10 m]}\nfields:\n  - {name: all, mix: slate, joint: 0, piece: §1}\nroom: {size: "
     "[12 m, 6 m, 12 m], panel centre height: 6 m}\n",
     "fields[1].piece", "at most 2000000"},
    // stock and tints
    {"stock: {a: {like: §deap-teal}}\n", "stock.a.like", "did you mean deep-teal?"},
    {"stock: {a: {kind: §stones, reflectance: 0.3}}\n", "stock.a.kind", "did you mean stone?"},
    {"stock: {a: §{kind: stone}}\n", "stock.a", "found no colour"},
    {"stock: {a: §{thickness: 3}}\n", "stock.a", "neither like nor kind"},
    {"stock: {a: §{like: slate, kind: stone, reflectance: 0.3}}\n", "stock.a", "both like and kind"},
    {"stock: {§slate: {like: pumice}}\n", "stock.slate", "built-in"},
    {"stock: {a: {like: slate}, §a: {like: pumice}}\n", "stock.a", "again"},
    {"stock: {a: {kind: stone, reflectance: [[400, 0.1], [500, §1.2]]}}\n", "stock.a.reflectance",
     "0 % to 100 %"},
    {"stock: {a: {kind: stone, reflectance: [[500, 0.1], §[400, 0.2]]}}\n", "stock.a.reflectance", "rising"},
    {"stock: {a: {kind: glass, transmittance at 3 mm: §0}}\n", "stock.a.transmittance at 3 mm",
     "0.0001 % to 100 %"},
    {"stock: {a: {kind: glass, §transmittance at 3 lb: 0.5}}\n", "stock.a.transmittance at 3 lb",
     "thickness"},
    {"stock: {a: {kind: glass, reflectance: §0.2, transmittance at 3 mm: 0.5}}\n", "stock.a.reflectance",
     "one of them"},
    {"stock: {a: {kind: stone, reflectance: 0.2, milkiness: §1}}\n", "stock.a.milkiness", "translucent"},
    {"tints: {a: {kind: §timber, reflectance: 0.2}}\n", "tints.a.kind", "expected one of cement, epoxy"},
    {"stock: §[slate]\n", "stock", "expected a mapping"},
    {"stock: {a: §slate}\n", "stock.a", "expected a mapping"},
    // stones
    {"stones: [{material: pumice, at: §[700, 20]}]\n", "stones[1].at", "off the panel"},
    {"stones: [{material: pumice, at: [70, 20], size: [30, 20, 10], proud: §12}]\n", "stones[1].proud",
     "height"},
    {"stones: [{material: pumice, at: [70, 20], form: §lump}]\n", "stones[1].form", "chunk, pebble"},
    {"stones: [§{at: [70, 20]}]\n", "stones[1].material", "found nothing"},
    // several panels
    {panel("size: [600, 450], divided: §yes"), "panel.divided", "expected a mapping"},
    {panel("size: [600, 450], divided: {at: §600, panels: [a, b]}"), "panel.divided.at",
     "within the work's 600 mm"},
    {panel("size: [600, 450], divided: {at: §700, panels: [a, b]}"), "panel.divided.at", "x = 700 mm"},
    {panel("size: [600, 450], divided: {at: §[], panels: [a, b]}"), "panel.divided.at",
     "expected 1 to 11 cuts"},
    {panel("size: [600, 450], divided: {at: §[400, 200], panels: [a, b, c]}"), "panel.divided.at",
     "expected rising places"},
    {panel("size: [600, 450], divided: {at: §[200, 200], panels: [a, b, c]}"), "panel.divided.at",
     "expected rising places"},
    {panel("size: [600, 450], divided: {at: §60, panels: [a, b]}"), "panel.divided.at",
     "found 40 mm left for 'a'"},
    {panel("size: [600, 450], divided: {at: §[250, 300], panels: [a, b, c]}"), "panel.divided.at",
     "found 10 mm left for 'b'"},
    {panel("size: [600, 450], divided: {at: §300, panels: [a, b]}, frame: {width: 240}"), "panel.divided.at",
     "frames included"},
    {panel("size: [600, 450], divided: {at: 300, gap: §250, panels: [a, b]}"), "panel.divided.gap",
     "no wider than a panel"},
    {panel("size: [600, 450], divided: {at: 300, gap: §-2, panels: [a, b]}"), "panel.divided.gap",
     "expected 0 to 5000"},
    {panel("size: [600, 450], divided: §{at: 300}"), "panel.divided.panels",
     "found nothing, expected the panels' names"},
    {panel("size: [600, 450], divided: §{panels: [a, b]}"), "panel.divided.at",
     "found nothing, expected where the work is cut"},
    {panel("size: [600, 450], divided: {at: 300, panels: §[a, b, c]}"), "panel.divided.panels",
     "found 3 names, expected 2: one more than cuts"},
    {panel("size: [600, 450], divided: {at: 300, panels: [a, §a]}"), "panel.divided.panels[2]",
     "found \"a\" again"},
    {panel("size: [600, 450], divided: {at: 300, panels: [a, §[b]]}"), "panel.divided.panels[2]",
     "expected a name"},
    {panel("size: [600, 450], divided: {at: 300, panels: §a}"), "panel.divided.panels",
     "expected a list of names"},
    {panel("size: [600, 450], divided: {at: 300, panels: [a, b], §gapp: 40}"), "panel.divided.gapp",
     "did you mean gap?"},
    {"panel: {size: [600, 450], divided: {at: 300, panels: [a, b]}}\nfields: [{name: all, opus: sectile, "
     "joint: 0.4, "
     "mix: slate, shapes: [§[[250, 10], [300, 10], [300, 60]]]}]\n",
     "fields[1].shapes[1]", "across the cut at x = 280 mm"},
    // room
    {"room: {wall: §deep-teal}\n", "room.wall", "opaque"},
    {"room: {size: §[500, 4000, 3000]}\n", "room.size", "room for panel and frame"},
    {"room: {panel centre height: §100}\n", "room.panel centre height", "expected 225 to 2775 mm"},
    // lamps
    {lamp("at: [0, 2900, 900], lumen: 500, candela: §900"), "lamps[1].candela", "lumen and candela"},
    {"lamps:\n  - §{name: a, aim: [0, 1450, 0], at: [0, 2900, 900]}\n", "lamps[1]",
     "neither lumen nor candela"},
    {lamp("at: [0, 2900, 900], lumen: 500, temperature: 3000, illuminant: §A"), "lamps[1].illuminant",
     "temperature and illuminant"},
    {lamp("at: [0, 2900, 900], lumen: 500, illuminant: §D66"), "lamps[1].illuminant", "did you mean D65?"},
    {lamp("at: [0, 2900, 900], lumen: §500 cd"), "lamps[1].lumen", "expected a luminous flux (lm)"},
    {lamp("at: [0, 2900, 900], lumen: §0"), "lamps[1].lumen", "expected 0.1 to"},
    {lamp("at: [0, 2900, 900], lumen: 500, temperature: §300"), "lamps[1].temperature",
     "expected 1000 to 25000 K"},
    {lamp("at: [0, 2900, 900], lumen: 500, beam angle: 30, field angle: §20"), "lamps[1].field angle",
     "more than the beam angle"},
    {lamp("at: §[0, 2900, -900], lumen: 500"), "lamps[1].at", "behind the wall"},
    {lamp("at: §[0, 3900, 900], lumen: 500"), "lamps[1].at", "outside the room"},
    {lamp("at: §[0, 1450, 5], lumen: 500"), "lamps[1].at", "inside the panel"},
    {"lamps:\n  - §{name: a, at: [0, 2900, 900], lumen: 500}\n", "lamps[1].aim", "found nothing"},
    {lamp("form: bulb, at: [0, 2900, 900], lumen: 500").insert(lamp("").find("[0, 1450"), kMark),
     "lamps[1].aim", "found aim of a bulb"},
    {lamp("at: [0, 2900, 900], lumen: 500, form: §spott"), "lamps[1].form", "did you mean spot?"},
    // viewpoints and pictures
    {"viewpoints: [{name: v, distance: §9 m}]\n", "viewpoints[1].distance", "outside the room"},
    {"viewpoints: [{name: v, eye: §[0, 1450, 7000]}]\n", "viewpoints[1].eye", "outside the room"},
    {"viewpoints: [{name: v, eye: [0, 1450, 2000], sideways: §20}]\n", "viewpoints[1].sideways",
     "sideways with eye"},
    {"viewpoints: [{name: v, view width: §0}]\n", "viewpoints[1].view width", "expected 1 to"},
    {"pictures: [{name: p, viewpoint: §strait}]\n", "pictures[1].viewpoint", "did you mean straight?"},
    {"pictures: [{name: p, lamps: [spots, §left spt]}]\n", "pictures[1].lamps", "did you mean left spot?"},
    {"pictures: [{name: p, size: [§8, 900]}]\n", "pictures[1].size", "expected 16 to 16384"},
    {"pictures: [{name: p, size: [1200, §20000]}]\n", "pictures[1].size", "expected 16 to 16384"},
    {"pictures: [{name: p, size: §[100.5, 90]}]\n", "pictures[1].size", "whole"},
    {"pictures: [{name: p, exposure: §gray-card}]\n", "pictures[1].exposure", "did you mean grey-card?"},
    {"pictures: [{name: p, exposure: adapted, ev: §7}]\n", "pictures[1].ev", "ev and exposure"},
    {"pictures: [{name: p, grain: §2}]\n", "pictures[1].grain", "expected 0.05 % to 50 %"},
    {"pictures: [{name: p}, {name: §p}]\n", "pictures[2].name", "again"},
};

std::vector<Problem> problems_of(const std::string& text) {
    try {
        read_layout_text(text, "bad.yaml");
    } catch (const LayoutError& error) {
        return error.problems();
    }
    return {};
}

TEST(LayoutErrors, SayWhereWhatAndHowToPutItRight) {
    for (const Case& c : kCases) {
        std::string text = c.text.find("panel:") != std::string::npos ? c.text : kGoodHead + c.text;
        const size_t mark = text.find(kMark);
        ASSERT_NE(mark, std::string::npos) << text;
        text.erase(mark, kMark.size());
        const int line =
            1 + static_cast<int>(std::count(text.begin(), text.begin() + static_cast<long>(mark), '\n'));
        const size_t line_start = mark == 0 ? 0 : text.rfind('\n', mark - 1) + 1;
        const int column = static_cast<int>(mark - line_start) + 1;

        bool said = false;
        std::string all;
        for (const Problem& p : problems_of(text)) {
            all += to_string(p) + "\n";
            said |= p.place.file == "bad.yaml" && p.place.line == line && p.place.column == column &&
                    p.key == c.key && p.text.find(c.words) != std::string::npos;
        }
        EXPECT_TRUE(said) << text << "expected " << line << ':' << column << ' ' << c.key << ": " << c.words
                          << "\ngot\n"
                          << all;
    }
}

TEST(LayoutErrors, OneMistakeGivesOneProblem) {
    for (const char* text :
         {"stock: {a: {like: slat}}\n", "lamps: [{name: a, at: [0, 2900, 900], aim: [0, 0, 0], lumen: x}]\n",
          "pictures: [{name: p, viewpoint: strait}]\n", "room: {size: [wide, 4000, 3000]}\n"})
        EXPECT_EQ(problems_of(kGoodHead + text).size(), 1u) << text;
    EXPECT_EQ(problems_of("panel: {size: [0, 450]}\nfields: [{name: all, mix: slate}]\n").size(), 1u);
}

TEST(LayoutErrors, AllProblemsComeAtOnceInFileOrder) {
    const std::string text =
        "panel: {size: [600, -1]}\n"
        "fields:\n"
        "  - {name: a, mix: slat}\n"
        "  - {name: b, mix: slate, opus: round}\n"
        "lamps:\n"
        "  - {name: l, at: [0, 2900, 900], aim: [0, 0, 0], lumen: 5, candela: 5}\n"
        "extra: 1\n";
    const auto problems = problems_of(text);
    ASSERT_EQ(problems.size(), 5u);
    for (size_t i = 0; i < problems.size(); ++i)
        EXPECT_EQ(problems[i].place.line, std::vector({1, 3, 4, 6, 7})[i]) << to_string(problems[i]);
    const std::string lines = refusal_of([&] { read_layout_text(text, "bad.yaml"); });
    EXPECT_EQ(std::count(lines.begin(), lines.end(), '\n'), 4);
    EXPECT_EQ(lines.rfind("bad.yaml:1:21: panel.size: found \"-1\", expected 20 to 10000 mm\n", 0), 0u)
        << lines;
}

TEST(LayoutErrors, FloodOfProblemsIsCutShort) {
    std::string text = kGoodHead;
    for (int i = 0; i < 5000; ++i) text.append("x").append(std::to_string(i)).append(": 1\n");
    const auto problems = problems_of(text);
    EXPECT_EQ(problems.size(), 101u);
    EXPECT_EQ(problems.back().text, "and 4900 more problems");
}

TEST(LayoutErrors, TextsThatAreNoMapping) {
    EXPECT_NE(problems_of("").at(0).text.find("empty file"), std::string::npos);
    EXPECT_NE(problems_of("just words\n").at(0).text.find("expected a mapping"), std::string::npos);
    EXPECT_NE(problems_of("- a\n- b\n").at(0).text.find("expected a mapping"), std::string::npos);
}

class LayoutFile : public testing::Test {
  protected:
    test::Folder folder_;
    std::filesystem::path path_ = folder_ / "l.yaml";

    std::string refusal(const std::filesystem::path& path) {
        return refusal_of([&] { read_layout(path); });
    }
};

TEST_F(LayoutFile, GoodOneIsRead) {
    std::ofstream(path_) << kFullLayout;
    EXPECT_EQ(read_layout(path_).sources.path, path_.string());
}

TEST_F(LayoutFile, MissingOneAndFolderAreRefused) {
    EXPECT_NE(refusal(path_).find(path_.string() + ": found no such file"), std::string::npos);
    EXPECT_NE(refusal(folder_.path()).find("found a folder, expected a layout file"), std::string::npos);
}

TEST_F(LayoutFile, HugeOneIsRefusedUnread) {
    std::ofstream(path_) << kFullLayout;
    std::filesystem::resize_file(path_, 1u << 30);  // sparse: takes no room on the disk
    const auto start = std::chrono::steady_clock::now();
    EXPECT_NE(refusal(path_).find("8 MiB"), std::string::npos);
    EXPECT_LT(std::chrono::steady_clock::now() - start, std::chrono::milliseconds(100));
}

}  // namespace
}  // namespace rakelight
