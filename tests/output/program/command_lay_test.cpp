// `rakelight lay` and piece tables, run as a person would; drawings read back as XML and as pixels.
#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <nlohmann/json.hpp>
#include <sstream>

#include "materials/colour/ciede2000.h"
#include "output/lay/map.h"
#include "output/stock/report.h"
#include "scene/geometry/region.h"
#include "scene/laying/laying.h"
#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"
#include "tests/support/pixels.h"
#include "tests/support/run_program.h"
#include "tests/support/svg_checks.h"

namespace rakelight {
namespace {

using Json = nlohmann::json;
using test::bytes_of;
using test::expect_refused;
using test::expect_user_unit_is_a_millimetre;
using test::holds;
using test::layer;
using test::Outcome;
using test::Pixels;
using test::run_in;

constexpr const char* kTide =
    "panel: {name: \"Tide & <foam>\", size: [161, 115]}\n"
    "stones: [{material: pumice, at: [30, 30], size: [26, 22, 18], proud: 8}]\n"
    "fields:\n"
    "  - {name: rock pool, outline: [[90, 20], [150, 20], [150, 90], [90, 90]], opus: palladianum, piece: 14,"
    " mix: {slate: 60 %, coral: 40 %}, grout: sand}\n"
    "  - {name: sea, guides: [{smooth: [[0, 20], [80, 60], [160, 30]]}], opus: musivum, piece: [10, 8],"
    " mix: {aqua: 50 %, kelp-amber: 50 %}, bed: white, grout: charcoal}\n"
    "pictures: [{name: straight, size: [40, 30], grain: 50 %, most samples: 4}]\n";

void write_tide(const test::Folder& folder) {
    std::ofstream(folder / "tide.yaml") << kTide;
}

std::vector<Ring> rings_of(const char* path) {
    std::vector<Ring> rings;
    std::string text(path);
    for (char& c : text)
        if (c == 'L') c = ' ';
    std::istringstream in(text);
    for (char c = 0; in >> c;) {
        if (c == 'Z') continue;
        EXPECT_EQ(c, 'M');
        rings.emplace_back();
        for (glm::dvec2 p; (in >> std::ws) && in.peek() != 'Z' && in.peek() != 'M' && in >> p.x >> p.y;)
            rings.back().push_back(p);
    }
    return rings;
}

TEST(CommandLay, DrawsWhatTheTableSays) {
    const test::Folder folder;
    write_tide(folder);
    const Outcome o = run_in(folder, "lay tide.yaml --px-per-mm 8 --with guides,outlines");
    ASSERT_EQ(o.code, 0) << o.err;
    const auto in = [&](const char* name) { return folder.path() / "renders" / "tide" / name; };
    const Json numbers = Json::parse(bytes_of(in("laying.json")));
    const Json table = Json::parse(bytes_of(in("pieces.json")));
    for (const auto& file : numbers["files"])
        EXPECT_TRUE(std::filesystem::exists(in(file.get<std::string>().c_str()))) << file;

    for (const char* name : {"laying.svg", "joints.svg"}) {
        pugi::xml_document svg;
        ASSERT_TRUE(svg.load_file(in(name).c_str())) << name;
        expect_user_unit_is_a_millimetre(svg);
        EXPECT_TRUE(holds(svg.child("svg").child("title").text().get(), "Tide & <foam>"));
        double drawn = 0;
        std::size_t count = 0;
        for (const char* field : {"rock pool", "sea"})
            for (const auto& path : layer(svg, field).children("path")) {
                for (const Ring& ring : rings_of(path.attribute("d").value()))
                    drawn += std::abs(area_mm2(ring));
                ++count;
            }
        EXPECT_EQ(count, numbers["pieces"].get<std::size_t>());
        EXPECT_NEAR(drawn, numbers["piece_mm2"].get<double>(), 1e-6 * drawn);
        EXPECT_FALSE(layer(svg, "guides").child("path").empty());
        EXPECT_EQ(std::distance(layer(svg, "outlines").children("path").begin(),
                                layer(svg, "outlines").children("path").end()),
                  2);
    }
    double area = 0, mass = 0;
    for (const char* list : {"pieces", "stones"})
        for (const auto& piece : table[list]) {
            area += piece["area_mm2"].get<double>();
            mass += piece["mass_g"].get<double>();
        }
    EXPECT_NEAR(area, numbers["piece_mm2"].get<double>() + numbers["stone_mm2"].get<double>(), 0.1);
    EXPECT_NEAR(mass, numbers["mass_g"].get<double>(), 0.5);
    EXPECT_NEAR(numbers["joint_share"].get<double>(), 1 - area / (161 * 115), 1e-5);
    double shares = numbers["joint_share"].get<double>();
    for (const auto& m : numbers["materials"]) shares += m["share"].get<double>();
    EXPECT_NEAR(shares, 1, 1e-9);
}

// The stock sheet's colour in D65 is the judge: Lab over the same bed, by another way to the page.
TEST(CommandLay, PixelsAreTheStockColours) {
    const test::Folder folder;
    write_tide(folder);
    ASSERT_EQ(run_in(folder, "lay tide.yaml --px-per-mm 6 --only colours,pieces").code, 0);
    const auto in = [&](const char* name) { return folder.path() / "renders" / "tide" / name; };
    const Layout layout = read_layout_text(kTide, "tide.yaml");
    const StockReport stock =
        report_stock(layout, lay(layout), std::vector<double>(layout.on.lamps.size(), 100), "test");
    ASSERT_EQ(stock.lights[2].name, "D65");
    const Pixels png(in("laying.png"));
    ASSERT_GT(png.width, 0);
    pugi::xml_document svg;
    ASSERT_TRUE(svg.load_file(in("laying.svg").c_str()));
    const Xyz white = xyz_of(kD65);
    const Json table = Json::parse(bytes_of(in("pieces.json")));
    for (const auto& piece : table["pieces"]) {
        const std::string field = piece["field"], material = piece["material"];
        const std::string id =
            (field == "sea" ? "sea." : "rock_pool.") + std::to_string(piece["number"].get<int>());
        const auto path = layer(svg, field).find_child_by_attribute("path", "id", id.c_str());
        ASSERT_FALSE(path.empty()) << id;
        const glm::dvec2 middle_px = 6.0 * centroid(rings_of(path.attribute("d").value())[0]);
        const auto seen = png.at(middle_px.x, middle_px.y);
        const LinearRgb rgb = decode(from_bytes(seen));
        const Lab lab = xyz_to_lab(linear_rgb_to_xyz(rgb), white);
        for (const StockEntry& entry : stock.entries)
            if (entry.material.name == material) {
                const Lab& wanted = entry.swatches[0].lab[2];
                const LinearRgb exact = xyz_to_linear_rgb(lab_to_xyz(wanted, white));
                // Beyond sRGB the drawing keeps lightness and gives up vividness.
                if (std::min({exact.r, exact.g, exact.b}) >= 0)
                    EXPECT_LT(ciede2000(lab, wanted), 1.0) << id << " " << material;
                else
                    EXPECT_NEAR(lab.l, wanted.l, 1.0) << id << " " << material;
            }
    }
}

// Squares of side l with joints j on a lattice: the joints' share of the face is 1 - (l / (l + j))^2; within
// two points, as the hand nips corners.
TEST(CommandLay, JointShareOfALattice) {
    const test::Folder folder;
    std::ofstream(folder / "grid.yaml")
        << "panel: {size: [230, 115]}\n"
           "fields: [{name: grid, opus: regulatum, piece: 10, joint: 1.5, mix: slate}]\n";
    ASSERT_EQ(run_in(folder, "lay grid.yaml --only pieces").code, 0);
    const Json numbers = Json::parse(bytes_of(folder.path() / "renders" / "grid" / "laying.json"));
    EXPECT_NEAR(numbers["joint_share"].get<double>(), 1 - std::pow(10 / 11.5, 2), 0.02);
    EXPECT_EQ(numbers["pieces"], 200);
    EXPECT_EQ(numbers["map"], nullptr);
}

TEST(CommandLay, TheMapNumbersEveryPieceThatItDoesNotName) {
    const test::Folder folder;
    write_tide(folder);
    ASSERT_EQ(run_in(folder, "lay tide.yaml --only map --paper A4").code, 0);
    const auto in = [&](const std::string& name) { return folder.path() / "renders" / "tide" / name; };
    const Json map = Json::parse(bytes_of(in("laying.json")))["map"];
    const std::size_t all = map["numbered"].get<std::size_t>() + map["too_small_for_a_number"].size();
    EXPECT_EQ(all, Json::parse(bytes_of(in("laying.json")))["pieces"].get<std::size_t>() + 1);
    EXPECT_GE(map["numbered"].get<double>(), 0.97 * static_cast<double>(all));
    // Tiles cover the panel and are drawn on the paper at the stated scale.
    double left = 1e9, right = 0, low = 1e9, high = 0;
    for (const auto& tile : map["sheets"]) {
        left = std::min(left, tile["from_mm"][0].get<double>());
        low = std::min(low, tile["from_mm"][1].get<double>());
        right = std::max(right, tile["to_mm"][0].get<double>());
        high = std::max(high, tile["to_mm"][1].get<double>());
        EXPECT_LE(
            (tile["to_mm"][0].get<double>() - tile["from_mm"][0].get<double>()) * map["scale"].get<double>(),
            map["paper_mm"][0].get<double>());
    }
    EXPECT_NEAR(left, 0, 1e-9);
    EXPECT_NEAR(low, 0, 1e-9);
    EXPECT_NEAR(right, 161, 1e-9);
    EXPECT_NEAR(high, 115, 1e-9);
    for (int page = 1; page <= map["pages"].get<int>(); ++page) {
        pugi::xml_document svg;
        EXPECT_TRUE(svg.load_file(in("map-" + std::to_string(page) + ".svg").c_str()));
    }
}

TEST(CommandLay, APictureOfTheTableIsThePictureOfTheLayout) {
    const test::Folder folder;
    write_tide(folder);
    ASSERT_EQ(run_in(folder, "lay tide.yaml --only pieces").code, 0);
    const std::string table = bytes_of(folder.path() / "renders" / "tide" / "pieces.csv");
    std::ofstream(folder / "given.yaml") << kTide << "pieces: renders/tide/pieces.json\n";
    ASSERT_EQ(run_in(folder, "preview tide.yaml --quiet --into laid").code, 0);
    ASSERT_EQ(run_in(folder, "preview tide.yaml --quiet --into listed --pieces renders/tide/pieces.csv").code,
              0);
    ASSERT_EQ(run_in(folder, "preview given.yaml --quiet --into given").code, 0);
    const Pixels laid(folder / "laid/tide/straight.png"), listed(folder / "listed/tide/straight.png"),
        given(folder / "given/given/straight.png");
    ASSERT_EQ(laid.rgb.size(), 40u * 30 * 3);
    EXPECT_EQ(laid.rgb, listed.rgb);
    EXPECT_EQ(laid.rgb, given.rgb);
    ASSERT_EQ(run_in(folder, "lay given.yaml --only pieces").code, 0);
    EXPECT_EQ(bytes_of(folder.path() / "renders" / "given" / "pieces.csv"), table);
}

// A letter is set twice, as its glow and as itself, and within the ground of its field.
TEST(CommandLay, NamesStandInTheirFields) {
    const test::Folder folder;
    write_tide(folder);
    const auto letters = [&](const std::string& with) {
        EXPECT_EQ(run_in(folder, "lay tide.yaml --only colours,joints" + with).code, 0);
        std::vector<std::size_t> counts;
        for (const char* name : {"laying.svg", "joints.svg"}) {
            pugi::xml_document svg;
            EXPECT_TRUE(svg.load_file((folder.path() / "renders" / "tide" / name).c_str()));
            counts.push_back(svg.select_nodes("//use").size());
        }
        return counts;
    };
    const auto plain = letters(""), named = letters(" --with names");
    const std::size_t ink = std::string_view("rockpoolsea").size();
    for (std::size_t i = 0; i < plain.size(); ++i) EXPECT_EQ(named[i], plain[i] + 2 * ink);
    // The last layer of words is that of the names: the first field's lie over its rectangle.
    pugi::xml_document svg;
    ASSERT_TRUE(svg.load_file((folder.path() / "renders/tide/joints.svg").c_str()));
    const Ring edge = rings_of(layer(svg, "edge").child("path").attribute("d").value())[0];
    const Box panel = bounds(edge);
    const auto letter = layer(svg, "names").next_sibling("g").select_node(".//use").node();
    glm::dvec2 at;
    ASSERT_EQ(std::sscanf(letter.attribute("transform").value(), "translate(%lf %lf)", &at.x, &at.y), 2);
    EXPECT_GT(at.x, panel.low.x + 90);
    EXPECT_LT(at.x, panel.low.x + 150);
    EXPECT_GT(at.y, panel.high.y - 90);
    EXPECT_LT(at.y, panel.high.y - 20);
}

// What a desktop asks of all letters: no antialiasing, full hinting, other words first.
TEST(CommandLay, DrawingsDoNotHangOnSettingsOfADesktop) {
    const test::Folder folder;
    write_tide(folder);
    std::ofstream(folder / "fonts.conf")
        << "<?xml version='1.0'?><!DOCTYPE fontconfig SYSTEM 'fonts.dtd'><fontconfig>"
           "<include>/etc/fonts/fonts.conf</include><match target='font'>"
           "<edit name='antialias' mode='assign'><bool>false</bool></edit>"
           "<edit name='hintstyle' mode='assign'><const>hintfull</const></edit>"
           "<edit name='autohint' mode='assign'><bool>true</bool></edit></match></fontconfig>";
    const auto files = [&] {
        EXPECT_EQ(run_in(folder, "lay tide.yaml --only colours,map --px-per-mm 3 --with names").code, 0);
        std::string all;
        for (const char* name : {"laying.png", "laying.svg", "map-1.png", "map-1.svg"})
            all += bytes_of(folder.path() / "renders" / "tide" / name);
        return all;
    };
    const std::string plain = files();
    setenv("FONTCONFIG_FILE", (folder / "fonts.conf").c_str(), 1);
    setenv("PANGO_LANGUAGE", "ja", 1);
    const std::string set = files();
    unsetenv("FONTCONFIG_FILE");
    unsetenv("PANGO_LANGUAGE");
    EXPECT_TRUE(set == plain);
}

TEST(CommandLay, ScalesInWords) {
    EXPECT_EQ(scale_words(2), "2:1");
    EXPECT_EQ(scale_words(1), "1:1");
    EXPECT_EQ(scale_words(0.5), "1:2");
    EXPECT_EQ(scale_words(0.25), "1:4");
}

TEST(CommandLay, WrongWordsEndWithTwoAndWriteNothing) {
    const test::Folder folder;
    write_tide(folder);
    std::ofstream(folder / "bad.csv") << "field,material,outline_mm\nsea,aqau,0 0;5 0;5 5\n";
    for (const auto& [arguments, part] :
         {std::pair{"lay tide.yaml --only colour", "did you mean colours?"},
          {"lay tide.yaml --with guide", "did you mean guides?"},
          {"lay tide.yaml --paper A9", "expected one of A4"},
          {"lay tide.yaml --px-per-mm 100", "expected at most"},
          {"lay tide.yaml --pieces bad.csv", "bad.csv:2:1: material: found \"aqau\""},
          {"check tide.yaml --pieces gone.csv", "gone.csv: found no such file"},
          {"preview tide.yaml --pieces bad.csv", "did you mean aqua?"}})
        expect_refused(folder, arguments, part);
    EXPECT_FALSE(std::filesystem::exists(folder / "renders/tide/laying.png"));
    std::ofstream(folder / "renders-file") << "x";
    EXPECT_EQ(run_in(folder, "lay tide.yaml --into renders-file").code, 3);
}

}  // namespace
}  // namespace rakelight
