// A file is whole or not there, and the messages name it.
#include "output/system/safe_file.h"

#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <fstream>

#include "output/system/errors.h"
#include "tests/support/test_film.h"

namespace rakelight {
namespace {

TEST(SafeFile, WholeAfterCommitNothingWithout) {
    const test::Folder folder;
    {
        SafeFile file(folder / "a.txt");
        EXPECT_TRUE(file.write_at("tide", 4, 4));
        EXPECT_TRUE(file.write_at("high", 4, 0));
        EXPECT_FALSE(std::filesystem::exists(folder / "a.txt"));
        file.commit();
    }
    EXPECT_EQ(test::bytes_of(folder / "a.txt"), "hightide");
    EXPECT_EQ(folder.entries(), 1u);
    { SafeFile file(folder / "b.txt"); }
    EXPECT_EQ(folder.entries(), 1u);
}

// A process that was killed cannot clear up after itself: the next does, but not what another machine or a
// process that is alive is writing.
TEST(SafeFile, ClearsWhatAKilledRunHasLeft) {
    const test::Folder folder;
    std::string mine;
    {
        const SafeFile file(folder / "a.png");
        mine = file.hidden().filename().string();
    }
    const std::string self = std::to_string(::getpid());
    ASSERT_TRUE(mine.ends_with("-" + self + ".tmp")) << mine;
    const pid_t child = ::fork();
    if (child == 0) ::_exit(0);
    int status = 0;
    ASSERT_EQ(::waitpid(child, &status, 0), child);
    const std::string gone = mine.substr(0, mine.size() - self.size() - 4) + std::to_string(child) + ".tmp";
    const std::string alive =
        mine.substr(0, mine.size() - self.size() - 4) + std::to_string(::getppid()) + ".tmp";
    const std::string elsewhere = ".a.png.another-machine-" + std::to_string(child) + ".tmp";
    const test::Folder again;
    for (const std::string& name : {gone, alive, elsewhere, std::string(".a.tmp"), std::string("a-1.tmp")})
        std::ofstream(again / name) << "half";
    write_file(again / "b.png", "whole");
    EXPECT_FALSE(std::filesystem::exists(again / gone));
    EXPECT_TRUE(std::filesystem::exists(again / alive));
    EXPECT_TRUE(std::filesystem::exists(again / elsewhere));
    EXPECT_EQ(again.entries(), 5u);
}

TEST(SafeFile, FullDiskKeepsTheOldFileAndSaysWhy) {
    const test::Folder folder;
    write_file(folder / "a.txt", "old");
    const test::FullDisk full(100);
    try {
        write_file(folder / "a.txt", std::string(1000, 'x'));
        FAIL() << "the disk was full";
    } catch (const OutputError& e) {
        EXPECT_NE(std::string(e.what()).find((folder / "a.txt").string() + ": File too large"),
                  std::string::npos);
    }
    EXPECT_EQ(test::bytes_of(folder / "a.txt"), "old");
    EXPECT_EQ(folder.entries(), 1u);
}

TEST(SafeFile, RefusesFoldersAndMissingFolders) {
    const test::Folder folder;
    EXPECT_THROW(write_file(folder.path(), "x"), OutputError);
    EXPECT_THROW(write_file(folder / "no/a.txt", "x"), OutputError);
    EXPECT_EQ(folder.entries(), 0u);
}

TEST(SafeFile, WritableFolderIsMadeOrRefused) {
    const test::Folder folder;
    make_writable_folder(folder / "a/b/c");
    EXPECT_TRUE(std::filesystem::is_directory(folder / "a/b/c"));
    EXPECT_TRUE(std::filesystem::is_empty(folder / "a/b/c"));
    write_file(folder / "file", "x");
    EXPECT_THROW(make_writable_folder(folder / "file"), OutputError);
    EXPECT_THROW(make_writable_folder(folder / "file/below"), OutputError);
    if (::geteuid() != 0) {  // root may write anywhere
        std::filesystem::permissions(folder / "a/b/c", std::filesystem::perms::owner_read);
        EXPECT_THROW(make_writable_folder(folder / "a/b/c"), OutputError);
        std::filesystem::permissions(folder / "a/b/c", std::filesystem::perms::owner_all);
    }
}

TEST(SafeFile, NamesCannotLeaveTheFolder) {
    EXPECT_EQ(file_stem("straight"), "straight");
    EXPECT_EQ(file_stem("by day, left"), "by-day--left");
    EXPECT_EQ(file_stem("../../etc/x"), "_..-..-etc-x");
    EXPECT_EQ(file_stem(".hidden"), "_.hidden");
    EXPECT_EQ(file_stem(""), "_");
    EXPECT_EQ(file_stem("été"), "été");
    EXPECT_EQ(file_stem(std::string("a\0b\n", 4)), "a-b-");
    EXPECT_EQ(file_stem(std::string(120, 'a')), std::string(120, 'a'));
}

TEST(SafeFile, LongNamesStayApart) {
    // Two bytes a letter: the cut is between letters.
    std::string one(110, 'a'), other = one;
    for (int i = 0; i < 20; ++i) one += "é", other += "é";
    other += "x";
    const std::string a = file_stem(one), b = file_stem(other);
    EXPECT_NE(a, b);
    EXPECT_LE(a.size(), 120u);
    EXPECT_EQ(a, file_stem(one));
    EXPECT_EQ(a.substr(0, 110), std::string(110, 'a'));
    EXPECT_EQ(a[110], '-');
}

TEST(SafeFile, AFolderIsNamedAfterTheLayoutAndItsChanges) {
    using Changes = std::vector<std::string>;
    EXPECT_EQ(finished_folder("out", "work/tide.yaml"), "out/tide");
    EXPECT_EQ(finished_folder("out", "tide.yaml",
                              Changes{"fields.sea.grout=black", "lamps.spots.temperature=4000"}),
              "out/tide_grout-black_temperature-4000");
    EXPECT_EQ(finished_folder("out", "tide.yaml", Changes{"fields.sea.grout=black", "fields.sky.grout=sand"}),
              "out/tide_sea.grout-black_sky.grout-sand");
    EXPECT_EQ(finished_folder("out", "tide.yaml", Changes{"panel.size=[300, 200]"}),
              "out/tide_size--300--200-");
    EXPECT_EQ(finished_folder("out", "tide.yaml", Changes{"a=../../x"}), "out/tide_a-..-..-x");
}

}  // namespace
}  // namespace rakelight
