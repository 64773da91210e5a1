// `rakelight page` as it is run: exit codes, one file, the same bytes. What the page does is judged in a
// browser.
#include <gtest/gtest.h>

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
    deliver({test::make_film(40, 30), test::make_notes()}, folder / "run", true);
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

TEST(CommandPage, TroubleIsSaid) {
    const test::Folder folder;
    std::filesystem::create_directories(folder / "empty");
    EXPECT_EQ(run_in(folder, "page").code, 2);
    EXPECT_EQ(run_in(folder, "page missing").code, 2);
    const Outcome empty = run_in(folder, "page empty");
    EXPECT_EQ(empty.code, 2);
    EXPECT_TRUE(holds(empty.err, "no pictures")) << empty.err;
    deliver({test::make_film(40, 30), test::make_notes()}, folder / "empty", true);
    const Outcome full = run_in(folder, "page empty", "ulimit -f 4");
    EXPECT_EQ(full.code, 3) << full.err;
    EXPECT_FALSE(std::filesystem::exists(folder / "empty/index.html"));
}

// Bad input like any other: cut within its head, in its middle, at its end, or something else altogether.
TEST(CommandPage, ADamagedFilmIsToldByItsNameAndNothingIsWritten) {
    const test::Folder folder;
    std::filesystem::create_directories(folder / "run");
    deliver({test::make_film(40, 30), test::make_notes()}, folder / "run", true);
    const std::string whole = test::bytes_of(folder / "run/straight.exr");
    for (const std::size_t length : {std::size_t{0}, std::size_t{8}, whole.size() / 2, whole.size() - 9}) {
        folder.write("run/straight.exr", whole.substr(0, length));
        test::expect_refused(folder, "page run", "cannot use run/straight.exr: ");
        EXPECT_FALSE(std::filesystem::exists(folder / "run/index.html")) << length;
    }
    folder.write("run/straight.exr", whole);
    ASSERT_EQ(run_in(folder, "page run").code, 0);
    const std::string page = test::bytes_of(folder / "run/index.html");
    folder.write("run/straight.exr", "words");
    test::expect_refused(folder, "page run", "cannot use run/straight.exr: ");
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
