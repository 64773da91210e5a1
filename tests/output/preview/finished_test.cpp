#include "output/preview/finished.h"

#include <gtest/gtest.h>

#include "output/preview/deliver.h"
#include "tests/support/test_film.h"

namespace rakelight {
namespace {

TEST(Finished, AllThreeFilesOfOneScene) {
    const test::Folder folder;
    NotedFilm noted{test::make_film(20, 16), test::make_notes()};
    const std::uint64_t hash = noted.notes.scene_hash;
    EXPECT_FALSE(is_finished(folder.path(), "straight", hash, true));
    deliver(noted, folder.path(), true);
    EXPECT_TRUE(is_finished(folder.path(), "straight", hash, true));
    EXPECT_FALSE(is_finished(folder.path(), "straight", hash + 1, true)) << "the layout changed";
    EXPECT_FALSE(is_finished(folder.path(), "straight", hash, false)) << "printed otherwise";
    EXPECT_FALSE(is_finished(folder.path(), "evening", hash, true));
}

// As a run leaves it that is killed between two files: each of the three in turn is of another scene.
TEST(Finished, FilesOfTwoRunsAreNotFinished) {
    const test::Folder folder;
    NotedFilm noted{test::make_film(20, 16), test::make_notes()};
    const std::uint64_t hash = noted.notes.scene_hash;
    std::filesystem::create_directories(folder / "other");
    NotedFilm other = noted;
    other.notes.scene_hash = hash + 1;
    deliver(other, folder / "other", true);
    for (const char* name : {"straight.png", "straight.exr", "straight.json"}) {
        deliver(noted, folder.path(), true);
        ASSERT_TRUE(is_finished(folder.path(), "straight", hash, true));
        std::filesystem::copy_file(folder / "other" / name, folder / name,
                                   std::filesystem::copy_options::overwrite_existing);
        EXPECT_FALSE(is_finished(folder.path(), "straight", hash, true)) << name;
        std::filesystem::remove(folder / name);
        EXPECT_FALSE(is_finished(folder.path(), "straight", hash, true)) << name;
        std::ofstream(folder / name) << "{}";
        EXPECT_FALSE(is_finished(folder.path(), "straight", hash, true)) << name;
    }
}

}  // namespace
}  // namespace rakelight
