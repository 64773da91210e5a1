// What is found in a folder, by the files put there.
#include "output/web/run_folder.h"

#include <gtest/gtest.h>

#include "output/system/errors.h"
#include "tests/support/test_film.h"

namespace rakelight {
namespace {

void put(const test::Folder& folder, const std::string& name, const std::string& text = "x") {
    std::filesystem::create_directories((folder / name).parent_path());
    std::ofstream(folder / name) << text;
}

const RunPart* part_called(const RunFolder& run, const std::string& title) {
    for (const RunPart& part : run.parts)
        if (part.title == title) return &part;
    return nullptr;
}

std::vector<std::string> names(const RunPart& part) {
    std::vector<std::string> all;
    for (const ShownFile& shown : part.shown) all.push_back(shown.file);
    return all;
}

constexpr const char* kRecord =
    R"({"format": "rakelight record", "panel": "Low tide", "picture": "straight", "layout_file": "tide.yaml",
        "illuminance_on_panel_lx": 321.4, "exposure": {"ev100": 8, "glow": true, "middle_luminance_cd_per_m2": 32},
        "lamp_groups": [{"name": "spots", "mean_luminance_cd_per_m2": 9},
                        {"name": "moon", "mean_luminance_cd_per_m2": 0}],
        "luminance_cd_per_m2": {"most": 2443.7},
        "files": ["straight.png", "straight.exr", "straight.json"]})";

TEST(RunFolder, PicturesComeFirstWithWhatTheirRecordSays) {
    const test::Folder folder;
    for (const char* name :
         {"straight.png", "straight.exr", "map-10.png", "map-2.png", "pieces.csv", "other.png", "index.html",
          ".hidden.png", "straight.begun-1-16.exr", "notes.json"})
        put(folder, name);
    put(folder, "straight.json", kRecord);
    put(folder, "laying.json",
        R"({"format": "rakelight laying", "panel": "Low tide", "files": ["map-2.png", "map-10.png", "pieces.csv"]})");
    const RunFolder run = read_run_folder(folder.path());
    EXPECT_EQ(run.title, "Low tide");
    ASSERT_EQ(run.parts.size(), 3u);
    EXPECT_EQ(run.parts[0].title, "Pictures");
    EXPECT_EQ(run.parts[1].title, "As laid");
    EXPECT_EQ(names(run.parts[1]), (std::vector<std::string>{"map-2.png", "map-10.png"}));
    EXPECT_EQ(names(run.parts[2]), std::vector<std::string>{"other.png"});

    const ShownFile& straight = run.parts[0].shown.at(0);
    EXPECT_EQ(straight.title, "Straight");
    EXPECT_EQ(straight.film, "straight.exr");
    EXPECT_TRUE(straight.glow);
    EXPECT_NE(straight.facts.at(0).find("321 lx"), std::string::npos) << straight.facts[0];
    EXPECT_EQ(straight.facts[0].find("moon"), std::string::npos) << "a lamp that is off is not named";
    EXPECT_NE(straight.facts.at(1).find("brightest spot 2440 cd/m"), std::string::npos) << straight.facts[1];
    EXPECT_NE(straight.alt.find("Low tide"), std::string::npos);
    // ISO 2720: an 18 % card prints at the middle, so white lies 1 / 0.18 above it.
    EXPECT_NEAR(straight.white_cd_per_m2, 32 / 0.18, 1e-9);
}

// IEEE 754: below the least normal number, about 2.2e-308, a conversion from text may report an underflow.
TEST(RunFolder, ADenormalLuminanceIsShown) {
    const test::Folder folder;
    put(folder, "straight.png");
    std::string record = kRecord;
    record.replace(record.find("2443.7"), 6, "4.9e-320");
    put(folder, "straight.json", record);
    const ShownFile& shown = read_run_folder(folder.path()).parts.at(0).shown.at(0);
    EXPECT_NE(shown.facts.at(1).find("brightest spot 4.9e-320 cd/m"), std::string::npos) << shown.facts[1];
}

TEST(RunFolder, APictureWithoutItsFilmIsAStill) {
    const test::Folder folder;
    put(folder, "straight.png");
    put(folder, "straight.json", kRecord);
    EXPECT_EQ(read_run_folder(folder.path()).parts.at(0).shown.at(0).film, "");
}

TEST(RunFolder, CellsOfABoardAreNotShownTwice) {
    const test::Folder folder;
    for (const char* name : {"board.png", "board-1-1.png", "board-1-2.png"}) put(folder, name);
    put(folder, "board.json",
        R"({"format": "rakelight board", "title": "Grouts", "cells": [{"file": "board-1-1.png"},
            {"file": "board-1-2.png"}], "files": ["board.png", "board-1-1.png", "board-1-2.png"]})");
    const RunFolder run = read_run_folder(folder.path());
    ASSERT_EQ(run.parts.size(), 1u);
    EXPECT_EQ(run.parts[0].board, "board.json");
    EXPECT_EQ(names(run.parts[0]), std::vector<std::string>{"board.png"});
}

// What is photographed and what is rendered is said of a print that is both.
TEST(RunFolder, APrintInAPhotographIsCalledSo) {
    const test::Folder folder;
    for (const char* name : {"foyer.png", "straight.png"}) put(folder, name);
    put(folder, "straight.json", kRecord);
    put(folder, "foyer.json",
        R"({"format": "rakelight in-photograph", "panel": "Low tide", "picture": "foyer",
            "photograph": "client-wall.jpg", "note": "a photograph with a rendering set in",
            "light": "of the layout", "files": ["foyer.png", "foyer.json"]})");
    const RunFolder run = read_run_folder(folder.path());
    EXPECT_EQ(run.parts.at(0).title, "Pictures");
    const RunPart& part = run.parts.at(1);
    EXPECT_EQ(part.title, "In a photograph");
    const ShownFile& foyer = part.shown.at(0);
    EXPECT_EQ(foyer.title, "Foyer");
    EXPECT_NE(foyer.facts.at(0).find("A photograph with a rendering set in"), std::string::npos);
    EXPECT_NE(foyer.facts.at(0).find("client-wall.jpg"), std::string::npos);
    EXPECT_NE(foyer.facts.at(1).find("of the layout"), std::string::npos);
    for (const char* word : {"photograph client-wall.jpg", "rendering", "Low tide"})
        EXPECT_NE(foyer.alt.find(word), std::string::npos) << foyer.alt;
    EXPECT_EQ(foyer.alt.find("Sheet"), std::string::npos) << foyer.alt;
}

TEST(RunFolder, APortfoliosPrintInAPhotographIsCalledSo) {
    const test::Folder folder;
    put(folder, "foyer.png");
    put(folder, "portfolio.json",
        R"({"format": "rakelight portfolio", "pictures": [], "in_photographs": [{"file": "foyer.png",
            "title": "Foyer", "note": "A photograph with a rendering set in"}], "files": ["foyer.png"]})");
    const RunFolder run = read_run_folder(folder.path());
    EXPECT_EQ(run.parts.at(0).shown.at(0).facts,
              std::vector<std::string>{"A photograph with a rendering set in"});
}

TEST(RunFolder, WhatANewCommandWritesIsFoundByItsJson) {
    const test::Folder folder;
    for (const char* name : {"hanging.png", "hanging.pdf", "plan.svg"}) put(folder, name);
    put(folder, "hanging.json",
        R"({"format": "rakelight hanging-plan", "files": ["hanging.png", "hanging.pdf", "plan.svg"]})");
    const RunFolder run = read_run_folder(folder.path());
    const RunPart* part = part_called(run, "Hanging plan");
    ASSERT_NE(part, nullptr);
    EXPECT_EQ(names(*part), (std::vector<std::string>{"hanging.png", "plan.svg"}));
    EXPECT_EQ(part->beside, (std::vector<std::string>{"hanging.json", "hanging.pdf"}));
}

TEST(RunFolder, NothingToShowIsSaid) {
    const test::Folder folder;
    EXPECT_THROW(read_run_folder(folder.path()), RequestError);
    EXPECT_THROW(read_run_folder(folder / "missing"), RequestError);
    put(folder, "pieces.csv");
    EXPECT_THROW(read_run_folder(folder.path()), RequestError);
}

}  // namespace
}  // namespace rakelight
