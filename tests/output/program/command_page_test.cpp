// `rakelight page` as it is run: exit codes, one file, the same bytes. What the page does is judged in a
// browser.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <chrono>

#include "output/film/sealed_json.h"
#include "output/preview/deliver.h"
#include "tests/support/run_program.h"
#include "tests/support/test_film.h"

namespace rakelight {
namespace {

using test::holds;
using test::Outcome;
using test::run_in;

TEST(CommandPage, OneFileTheSameTwice) {
    const test::Folder folder;
    std::filesystem::create_directories(folder / "run");
    deliver(NotedFilm{test::make_film(40, 30), test::make_notes()}, folder / "run", true);
    const Outcome o = run_in(folder, "page run");
    ASSERT_EQ(o.code, 0) << o.err;
    EXPECT_EQ(o.out, "run/index.html\n");
    const std::string page = test::bytes_of(folder / "run/index.html");
    EXPECT_TRUE(holds(page, "Low tide"));
    EXPECT_TRUE(holds(page, "\"name\":\"window: north\"")) << "a lamp group to dim";
    for (const char* word : {"http://", "https://", "@title@", "@body@", "@script@"})
        EXPECT_FALSE(holds(page, word)) << word;
    ASSERT_EQ(run_in(folder, "page run").code, 0);
    EXPECT_TRUE(test::bytes_of(folder / "run/index.html") == page) << "its own page is not part of a page";
}

TEST(CommandPage, TheFilmOfAnotherSceneIsNotMixed) {
    const test::Folder folder;
    for (const char* name : {"run", "other"}) std::filesystem::create_directories(folder / name);
    NotedFilm noted{test::make_film(40, 30), test::make_notes()};
    deliver(noted, folder / "run", true);
    ++noted.notes.scene_hash;
    deliver(noted, folder / "other", true);
    std::filesystem::rename(folder / "other/straight.exr", folder / "run/straight.exr");
    ASSERT_EQ(run_in(folder, "page run").code, 0);
    const std::string page = test::bytes_of(folder / "run/index.html");
    EXPECT_FALSE(holds(page, "data-light=")) << "a still picture then";
    EXPECT_TRUE(holds(page, "data:image/png;base64,"));
}

// What lies in a folder from before the layout was changed says so; what is as the layout has it now does
// not, whatever its date.
TEST(CommandPage, WhatIsOlderThanTheLayoutIsMarked) {
    const test::Folder folder;
    folder.write("tide.yaml",
                 "panel: {size: [60, 60]}\nfields: [{name: all, piece: 30, mix: slate}]\n"
                 "pictures: [{name: straight, size: [24, 24], most samples: 1}]\n");
    ASSERT_EQ(run_in(folder, "preview tide.yaml --quiet").code, 0);
    const auto page = [&](const std::string& options = "") {
        EXPECT_EQ(run_in(folder, "page renders/tide --quiet " + options).code, 0);
        return test::bytes_of(folder / "renders/tide/index.html");
    };
    EXPECT_FALSE(holds(page(), "Older than"));
    const auto later = std::filesystem::file_time_type::clock::now() + std::chrono::hours(1);
    std::filesystem::last_write_time(folder / "tide.yaml", later);
    EXPECT_FALSE(holds(page(), "Older than")) << "written anew as it was";
    folder.write("tide.yaml", test::bytes_of(folder / "tide.yaml") + "# moved\n");
    std::filesystem::last_write_time(folder / "tide.yaml", later);
    EXPECT_TRUE(holds(page(), "Older than tide.yaml"));
    EXPECT_TRUE(holds(page(), "class=\"older\">Straight"));
    EXPECT_EQ(run_in(folder, "page renders/tide --for client").code, 2) << "nothing but what is older";
}

// A drawing may be worked on by hand; the page shows it and says so. Pictures may not.
TEST(CommandPage, ADrawingThatWasWorkedOnIsMarked) {
    const test::Folder folder;
    std::filesystem::create_directories(folder / "run");
    folder.write("run/sea.svg", "<svg xmlns=\"http://www.w3.org/2000/svg\"/>");
    folder.write("run/sheet.pdf", "%PDF-1.4 of a test");
    folder.write(
        "run/lay.json",
        sealed_json(R"({"format": "rakelight lay", "files": ["sea.svg", "sheet.pdf"]})", folder / "run"));
    const auto page = [&] {
        const Outcome o = run_in(folder, "page run --quiet");
        EXPECT_EQ(o.code, 0) << o.err;
        return test::bytes_of(folder / "run/index.html");
    };
    EXPECT_FALSE(holds(page(), "changed since"));
    folder.write("run/sheet.pdf", "%PDF-1.4 of a tent");
    EXPECT_TRUE(holds(page(), "sheet.pdf</a> (changed since it was written)"));
    folder.write("run/sea.svg", "<svg xmlns=\"http://www.w3.org/2000/svg\"><g/></svg>");
    EXPECT_TRUE(holds(page(), "<p>(changed since it was written)</p>"));
}

// A client gets pictures, boards and the proposal in one file under 5 MB: no masks, no tables, no link that
// leads to a file that was not sent.
TEST(CommandPage, AClientsPageHoldsItAllAndLinksToNothing) {
    const test::Folder folder;
    std::filesystem::create_directories(folder / "run");
    deliver(NotedFilm{test::make_film(1900, 1400), test::make_notes()}, folder / "run", true);
    folder.write("run/proposal.pdf", "%PDF-1.4 of a test");
    folder.write("run/stock.svg", "<svg xmlns=\"http://www.w3.org/2000/svg\"/>");
    folder.write("run/stock.json", R"({"format": "rakelight stock", "files": ["stock.svg"]})");
    std::filesystem::copy_file(folder / "run/straight.png", folder / "run/portfolio-edge.png");
    folder.write("run/portfolio.json",
                 R"({"format": "rakelight portfolio", "files": ["portfolio-edge.png", "proposal.pdf"]})");
    const Outcome o = run_in(folder, "page run --for client --quiet");
    ASSERT_EQ(o.code, 0) << o.err;
    EXPECT_EQ(o.out, "run/client.html\n");
    const std::string page = test::bytes_of(folder / "run/client.html");
    EXPECT_LT(page.size(), 5'000'000u);
    EXPECT_GT(page.size(), 20'000u);
    for (std::size_t at = page.find("href=\""); at != std::string::npos; at = page.find("href=\"", at + 1))
        EXPECT_TRUE(page.substr(at + 6, 1) == "#" || page.substr(at + 6, 5) == "data:")
            << page.substr(at, 60);
    EXPECT_TRUE(holds(page, "download=\"proposal.pdf\""));
    EXPECT_TRUE(holds(page, "Portfolio edge"));
    EXPECT_FALSE(holds(page, "stock.svg"));
    EXPECT_FALSE(holds(page, "data-light="));
    ASSERT_EQ(run_in(folder, "page run --for client --picture straight").code, 0);
    EXPECT_FALSE(holds(test::bytes_of(folder / "run/client.html"), "Portfolio edge"));
    test::expect_refused(folder, "page run --picture straigth", "did you mean straight?");
    test::expect_refused(folder, "page run --for clients", "did you mean client?");
}

TEST(CommandPage, RanksAreThoseOfTheRowAsOnTheSheet) {
    const test::Folder folder;
    std::filesystem::create_directories(folder / "run");
    deliver(NotedFilm{test::make_film(40, 30), test::make_notes()}, folder / "run", true);
    std::string cells;
    for (int i = 0; i < 6; ++i)
        cells +=
            fmt::format(R"({}{{"file": "straight.png", "row": {}, "column": {}, "label": "c", "rank": {}}})",
                        i ? ", " : "", i / 3, i % 3, i % 3 + 1);
    folder.write("run/board.json",
                 R"({"format": "rakelight board", "files": [], "rows": [{"label": "a"}, {"label": "b"}], )"
                 R"("columns": [{"label": "x"}, {"label": "y"}, {"label": "z"}], "cells": [)" +
                     cells + "]}");
    ASSERT_EQ(run_in(folder, "page run --quiet").code, 0);
    const std::string page = test::bytes_of(folder / "run/index.html");
    EXPECT_TRUE(holds(page, "1 of 3"));
    EXPECT_FALSE(holds(page, "1 of 6"));
}

TEST(CommandPage, ProgressIsShown) {
    const test::Folder folder;
    std::filesystem::create_directories(folder / "run");
    deliver(NotedFilm{test::make_film(40, 30), test::make_notes()}, folder / "run", true);
    EXPECT_TRUE(holds(run_in(folder, "page run").err, "page: 100 %")) << run_in(folder, "page run").err;
    EXPECT_TRUE(run_in(folder, "page run --quiet").err.empty());
}

TEST(CommandPage, TroubleIsSaid) {
    const test::Folder folder;
    std::filesystem::create_directories(folder / "empty");
    EXPECT_EQ(run_in(folder, "page").code, 2);
    EXPECT_EQ(run_in(folder, "page missing").code, 2);
    const Outcome empty = run_in(folder, "page empty");
    EXPECT_EQ(empty.code, 2);
    EXPECT_TRUE(holds(empty.err, "no pictures")) << empty.err;
    deliver(NotedFilm{test::make_film(40, 30), test::make_notes()}, folder / "empty", true);
    const Outcome full = run_in(folder, "page empty", "ulimit -f 4");
    EXPECT_EQ(full.code, 3) << full.err;
    EXPECT_FALSE(std::filesystem::exists(folder / "empty/index.html"));
}

// Bad input like any other: cut within its head, in its middle, at its end, or something else altogether.
TEST(CommandPage, ADamagedFilmIsToldByItsNameAndNothingIsWritten) {
    const test::Folder folder;
    std::filesystem::create_directories(folder / "run");
    deliver(NotedFilm{test::make_film(40, 30), test::make_notes()}, folder / "run", true);
    const std::string whole = test::bytes_of(folder / "run/straight.exr");
    for (const std::size_t length : {std::size_t{0}, std::size_t{8}, whole.size() / 2, whole.size() - 9}) {
        folder.write("run/straight.exr", whole.substr(0, length));
        test::expect_refused(folder, "page run", "run/straight.exr is damaged");
        EXPECT_FALSE(std::filesystem::exists(folder / "run/index.html")) << length;
    }
    folder.write("run/straight.exr", whole);
    ASSERT_EQ(run_in(folder, "page run").code, 0);
    const std::string page = test::bytes_of(folder / "run/index.html");
    folder.write("run/straight.exr", "words");
    test::expect_refused(folder, "page run", "run/straight.exr is damaged");
    EXPECT_TRUE(test::bytes_of(folder / "run/index.html") == page) << "the page that was there stays";
}

TEST(CommandPage, ADamagedPictureOrBoardIsTold) {
    const test::Folder folder;
    std::filesystem::create_directories(folder / "run");
    folder.write("run/straight.png", "words");
    test::expect_refused(folder, "page run", "cannot read run/straight.png: ");
    std::filesystem::remove(folder / "run/straight.png");
    folder.write("run/board.json", R"({"format": "rakelight board", "cells": [], "files": []})");
    test::expect_refused(folder, "page run", "cannot use run/board.json: it has no cells");
    EXPECT_FALSE(std::filesystem::exists(folder / "run/index.html"));
}

}  // namespace
}  // namespace rakelight
