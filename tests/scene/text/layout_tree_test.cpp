// A layout made from several files: what comes of it, and whose line is named when something is wrong.
#include "scene/text/layout_tree.h"

#include <gtest/gtest.h>

#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"
#include "scene/text/tree_override.h"
#include "tests/support/refusal.h"
#include "tests/support/test_folder.h"

namespace rakelight {
namespace {

using test::Folder;

constexpr const char* kTide =
    "panel: {name: Tide, size: [200, 150]}\n"
    "fields:\n"
    "  - {name: sea, mix: slate, grout: sand}\n"
    "lamps:\n"
    "  - {name: spot, at: [0, 2500, 900], aim: [0, 1450, 0], lumen: 500, temperature: 3000}\n";

std::string refused(const Folder& folder, const std::string& file,
                    const std::vector<std::string>& changes = {}) {
    return refusal_of([&] { read_layout(folder / file, {}, changes); });
}

void expect_said(const std::string& text, const std::vector<std::string>& parts) {
    for (const std::string& part : parts)
        EXPECT_NE(text.find(part), std::string::npos) << part << "\nin\n" << text;
}

const std::string& grout_of(const Layout& layout, std::size_t field) {
    return layout.tints.at(layout.fields.at(field).grout.value()).name;
}

TEST(LayoutTree, ABaseIsChanged) {
    const Folder folder;
    folder.write("tide.yaml", kTide);
    folder.write("night.yaml",
                 "like: tide.yaml\nfields: [{name: sea, grout: black}]\nlamps: [{name: spot, lumen: 90}]\n");
    folder.write("later.yaml", "like: night.yaml\npanel: {seed: 3}\n");
    const Layout layout = read_layout(folder / "later.yaml");
    EXPECT_EQ(layout.panel.name, "Tide");
    EXPECT_EQ(layout.panel.seed, 3u);
    EXPECT_EQ(grout_of(layout, 0), "black");
    EXPECT_EQ(layout.on.lamps.at(0).lumen, 90);
    EXPECT_EQ(layout.sources.files,
              (std::vector{(folder / "night.yaml").string(), (folder / "tide.yaml").string()}));
}

TEST(LayoutTree, ProblemsStandWhereTheValueDoes) {
    const Folder folder;
    std::string wrong = kTide;
    wrong.replace(wrong.find("temperature: 3000"), 17, "temprature: 3000");
    folder.write("tide.yaml", wrong);
    folder.write("night.yaml", "like: tide.yaml\n\nfields:\n  - {name: sea, grout: blak}\n");
    expect_said(refused(folder, "night.yaml"),
                {(folder / "night.yaml").string() + ":4:24: fields[1].grout: found \"blak\"",
                 (folder / "tide.yaml").string() + ":5:69: lamps[1].temprature: found the unknown key"});
}

TEST(LayoutTree, LibrariesAreShared) {
    const Folder folder;
    std::filesystem::create_directory(folder / "stock");
    folder.write("stock/common.yaml", "stock: {base blue: {like: aqua}}\n");
    folder.write("stock/glass.yaml",
                 "stock from: common.yaml\nstock: {my blue: {like: base blue, thickness: 5}}\n");
    folder.write("stock/grout.yaml", "stock from: [common.yaml]\ntints: {my joint: {like: sand}}\n");
    folder.write("tide.yaml",
                 "stock from: [stock/glass.yaml, stock/grout.yaml]\n"
                 "panel: {size: [200, 150]}\n"
                 "stock: {mine: {like: my blue, thickness: 7}}\n"
                 "fields: [{name: sea, mix: {mine: 50 %, my blue: 50 %}, grout: my joint}]\n");
    const Layout layout = read_layout(folder / "tide.yaml");
    ASSERT_EQ(layout.fields.at(0).mix.size(), 2u);
    EXPECT_EQ(layout.stock.at(layout.fields[0].mix[0].material).thickness_mm, 7);
    EXPECT_EQ(layout.stock.at(layout.fields[0].mix[1].material).thickness_mm, 5);
    EXPECT_EQ(grout_of(layout, 0), "my joint");
    EXPECT_EQ(layout.sources.files.size(), 3u);  // the one that both ask for is there once
}

TEST(LayoutTree, NamesOfFilesAreSeenFromWhereTheyStand) {
    const Folder folder;
    std::filesystem::create_directory(folder / "base");
    folder.write("base/tide.yaml",
                 "panel: {size: [200, 150]}\nfields: [{name: sea, mix: slate}]\npieces: none.csv\n");
    folder.write("night.yaml", "like: base/tide.yaml\n");
    expect_said(refused(folder, "night.yaml"), {(folder / "base/none.csv").string()});
    expect_said(refused(folder, "night.yaml", {"pieces=own.csv"}), {(folder / "own.csv").string()});
}

TEST(LayoutTree, WhatIsWrongWithFilesIsToldWithWhoAsked) {
    const Folder folder;
    const auto file = [&](const char* name) { return (folder / name).string(); };
    folder.write("a.yaml", "panel: {size: [200, 150]}\nlike: b.yaml\n");
    folder.write("b.yaml", "like: a.yaml\n");
    expect_said(refused(folder, "a.yaml"),
                {file("b.yaml") + ":1:7: like: found a circle: ",
                 file("a.yaml") + " asks for " + file("b.yaml") + " asks for " + file("a.yaml")});
    folder.write("c.yaml", "like: c.yaml\n");
    expect_said(refused(folder, "c.yaml"), {":1:7: like: found a circle"});
    folder.write("d.yaml", "like: [a, b]\n");
    expect_said(refused(folder, "d.yaml"),
                {":1:7: like: found a list of 2, expected the name of a layout file"});
    folder.write("e.yaml", "stock from: [none.yaml]\n");
    expect_said(refused(folder, "e.yaml"), {":1:14: stock from: found no file \"" + file("none.yaml")});
    folder.write("f.yaml", "stock from: lib.yaml\n");
    folder.write("lib.yaml", "stok: {a: {like: aqua}}\n");
    expect_said(refused(folder, "f.yaml"),
                {file("lib.yaml") + ":1:1: stok: found the unknown key", "did you mean stock?"});
    folder.write("lib.yaml", "stock from: lib2.yaml\n");
    folder.write("lib2.yaml", "stock from: lib.yaml\n");
    expect_said(refused(folder, "f.yaml"), {file("lib2.yaml") + ":1:13: stock from: found a circle"});
    folder.write("empty.yaml", "");
    folder.write("g.yaml", "like: empty.yaml\n");
    expect_said(refused(folder, "g.yaml"), {":1:7: like: found a file that is no layout"});
}

TEST(LayoutTree, ANameOfALibraryAndOfTheLayoutIsRefusedWithBothPlaces) {
    const Folder folder;
    folder.write("lib.yaml", "stock: {my blue: {like: aqua}}\n");
    folder.write("tide.yaml",
                 "stock from: lib.yaml\npanel: {size: [200, 150]}\nstock:\n  my blue: {like: opal}\n"
                 "fields: [{name: sea, mix: my blue}]\n");
    expect_said(refused(folder, "tide.yaml"),
                {(folder / "tide.yaml").string() + ":4:3: stock.my blue: found the key again",
                 "it is also at " + (folder / "lib.yaml").string() + ":1"});
}

TEST(LayoutTree, ALongChainIsRefused) {
    const Folder folder;
    folder.write("0.yaml", kTide);
    for (std::size_t i = 1; i <= kMostLayoutFiles; ++i)
        folder.write(std::to_string(i) + ".yaml", "like: " + std::to_string(i - 1) + ".yaml\n");
    EXPECT_EQ(refused(folder, std::to_string(kMostLayoutFiles - 1) + ".yaml"), "");
    expect_said(refused(folder, std::to_string(kMostLayoutFiles) + ".yaml"), {"found more than 32 files"});
}

TEST(ChangeTree, TakesWordsNumbersAndLists) {
    const Folder folder;
    folder.write("tide.yaml", kTide);
    const std::vector<std::string> changes{"lamps.spot.temperature=4000", "fields.sea.grout=black",
                                           "panel.size=[300, 200]", "panel.name=\"a: b\""};
    const Layout layout = read_layout(folder / "tide.yaml", {}, changes);
    EXPECT_EQ(grout_of(layout, 0), "black");
    EXPECT_EQ(layout.panel.width_mm, 300);
    EXPECT_EQ(layout.panel.name, "a: b");
    EXPECT_EQ(layout.sources.changes, changes);
}

TEST(ChangeTree, MistakesNameTheOptionAndThePath) {
    const Folder folder;
    folder.write("tide.yaml", kTide);
    const auto said = [&](const char* change) { return refused(folder, "tide.yaml", {change}); };
    expect_said(
        said("fields.see.grout=black"),
        {"--set fields.see.grout: found the unknown name \"see\", expected one of sea; did you mean sea?"});
    expect_said(said("fields.sea.gruot=black"),
                {"--set fields.sea.gruot: fields[1].gruot: found the unknown key", "did you mean grout?"});
    expect_said(said("feilds.sea.grout=black"), {"--set feilds.sea.grout: feilds: found the unknown key"});
    expect_said(said("fields.sea.grout=blak"), {"--set fields.sea.grout: fields[1].grout: found \"blak\""});
    expect_said(said("panel.size=[300"), {"--set panel.size"});
    expect_said(said("panel.size"), {"--set: found \"panel.size\", expected a key and its value"});
    expect_said(said("=black"), {"expected a key and its value"});
    expect_said(said("panel.seed="), {"expected a key and its value"});
}

TEST(ChangeTree, AllItemsOfAListAreMeantByAll) {
    const Folder folder;
    folder.write(
        "two.yaml",
        "panel: {size: [200, 150]}\nfields: [{name: sea, mix: slate, outline: [[0, 0], [90, 0], [90, 90]]}, "
        "{name: sky, mix: slate}]\n");
    const Layout layout =
        read_layout(folder / "two.yaml", {}, std::vector<std::string>{"fields.all.grout=black"});
    EXPECT_EQ(grout_of(layout, 0), "black");
    EXPECT_EQ(grout_of(layout, 1), "black");
}

}  // namespace
}  // namespace rakelight
