// `rakelight page` as it is run: exit codes, one file, the same bytes. What the page does is judged in a
// browser.
#include <gtest/gtest.h>

#include "output/deliver.h"
#include "run_program.h"

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
    std::filesystem::resize_file(folder / "empty/straight.exr", 500);
    const Outcome damaged = run_in(folder, "page empty");
    EXPECT_EQ(damaged.code, 3);
    EXPECT_TRUE(holds(damaged.err, "straight.exr")) << damaged.err;
}

}  // namespace
}  // namespace rakelight
