// The built program at many jobs: mistakes, what is finished, what is cut off in the middle.
#include <gtest/gtest.h>

#include <chrono>
#include <filesystem>

#include "tests/support/run_program.h"

namespace rakelight {
namespace {

namespace fs = std::filesystem;
using test::holds;
using test::Outcome;
using test::run_in;

void write_layout(const test::Folder& folder, const std::string& name, const std::string& picture,
                  const std::string& mix = "slate") {
    std::ofstream(folder / name) << "panel: {name: Tide, size: [120, 90]}\n"
                                 << "fields: [{name: sea, opus: tessellatum, piece: 12, joint: 2, mix: "
                                 << mix << "}]\npictures: [" << picture << "]\n";
}

constexpr const char* kSmall = "{name: straight, size: [48, 36], grain: 20 %, most samples: 16}";
// Seconds of work, in many bands of rows.
constexpr const char* kTall = "{name: straight, size: [48, 480], grain: 0.1 %, most samples: 64}";

bool same_files(const fs::path& a, const fs::path& b) {
    for (const char* name : {"straight.png", "straight.exr", "straight.json"})
        if (!fs::exists(a / name) || test::bytes_of(a / name) != test::bytes_of(b / name)) return false;
    return true;
}

// Runs the program, and sends it a signal as soon as rows are kept in `into`.
int cut_off(const test::Folder& folder, const std::string& arguments, const std::string& signal,
            const std::string& into) {
    const std::string command = "cd '" + folder.path().string() +
                                "' && bash -c 'set -m; " RAKELIGHT_PROGRAM " " + arguments +
                                " >/dev/null 2>&1 & for i in $(seq 9000); do ls " + into +
                                "/*.begun-* >/dev/null 2>&1 && break; sleep 0.02; done; kill -" + signal +
                                " $!; wait $!' 2>/dev/null";
    const int status = std::system(command.c_str());
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

TEST(CommandBatch, OneBadJobOfThreeKeepsNoneOfTheOthers) {
    const test::Folder folder;
    write_layout(folder, "ebb.yaml", kSmall);
    write_layout(folder, "bad.yaml", kSmall, "slaite");
    write_layout(folder, "flow.yaml", kSmall, "aqua");
    const Outcome o = run_in(folder, "batch ebb.yaml bad.yaml flow.yaml");
    EXPECT_EQ(o.code, 2) << o.err;
    EXPECT_TRUE(holds(o.err, "did you mean slate?")) << o.err;
    EXPECT_TRUE(holds(o.err, "bad.yaml:2:")) << o.err;
    EXPECT_TRUE(holds(o.out, "3 jobs: 2 done, 0 finished before, 1 failed")) << o.out;
    EXPECT_TRUE(fs::exists(folder / "renders/ebb/straight.png"));
    EXPECT_TRUE(fs::exists(folder / "renders/flow/straight.png"));
    EXPECT_FALSE(fs::exists(folder / "renders/bad"));
}

TEST(CommandBatch, WhatCannotBeWrittenEndsWithThree) {
    const test::Folder folder;
    write_layout(folder, "ebb.yaml", kSmall);
    EXPECT_EQ(run_in(folder, "batch ebb.yaml --into ebb.yaml").code, 3);
}

TEST(CommandBatch, FinishedPicturesAreLeftAloneUntilTheirLayoutChanges) {
    const test::Folder folder;
    write_layout(folder, "ebb.yaml", kSmall);
    ASSERT_EQ(run_in(folder, "batch ebb.yaml").code, 0);
    const fs::path png = folder / "renders/ebb/straight.png";
    const auto long_ago = fs::last_write_time(png) - std::chrono::hours(1);
    const auto rendered_by = [&](const std::string& arguments) {
        fs::last_write_time(png, long_ago);
        EXPECT_EQ(run_in(folder, arguments).code, 0) << arguments;
        return fs::last_write_time(png) != long_ago;
    };
    EXPECT_FALSE(rendered_by("batch ebb.yaml"));
    EXPECT_FALSE(rendered_by("preview ebb.yaml --skip-finished"));
    EXPECT_TRUE(rendered_by("preview ebb.yaml"));
    EXPECT_TRUE(rendered_by("batch ebb.yaml --again"));
    EXPECT_TRUE(rendered_by("batch ebb.yaml --size 32x24"));
    EXPECT_TRUE(rendered_by("batch ebb.yaml"));
    write_layout(folder, "ebb.yaml", kSmall, "aqua");
    EXPECT_FALSE(rendered_by("batch ebb.yaml --dry-run"));
    EXPECT_TRUE(rendered_by("batch ebb.yaml"));
}

// Two layouts of one name in two folders, or one picture in two sizes, would write over one another.
TEST(CommandBatch, NoTwoJobsWriteOnePicture) {
    const test::Folder folder;
    fs::create_directories(folder / "left");
    write_layout(folder, "tide.yaml", kSmall);
    write_layout(folder, "left/tide.yaml", kSmall, "aqua");
    write_layout(folder, "ebb.yaml", kSmall);
    std::ofstream(folder / "night.txt") << "tide.yaml\nleft/tide.yaml\ntide.yaml\n"
                                        << "preview ebb.yaml --size 24x18\nebb.yaml\n"
                                        << "preview ebb.yaml --into other\n";
    for (const char* how : {"", " --dry-run", " --on parallel --dry-run"}) {
        const Outcome o = run_in(folder, std::string("batch night.txt") + how);
        EXPECT_EQ(o.code, 2) << how << o.err;
        EXPECT_TRUE(holds(o.err, "night.txt:2: renders/tide/straight.png is written by night.txt:1 as well"))
            << how << o.err;
        EXPECT_TRUE(holds(o.err, "night.txt:5: renders/ebb/straight.png is written by night.txt:4 as well"))
            << how << o.err;
        EXPECT_FALSE(holds(o.err, "night.txt:3: renders")) << how << o.err;
        EXPECT_FALSE(holds(o.err, "night.txt:6: renders")) << how << o.err;
    }
    EXPECT_TRUE(fs::exists(folder / "other/ebb/straight.png"));
}

TEST(CommandBatch, ListsHoldAnyCommand) {
    const test::Folder folder;
    write_layout(folder, "ebb.yaml", kSmall);
    std::ofstream(folder / "night.txt") << "# night\nebb.yaml\nstock ebb.yaml\npolish ebb.yaml\n";
    const Outcome dry = run_in(folder, "batch night.txt --dry-run");
    EXPECT_EQ(dry.code, 2);
    EXPECT_TRUE(holds(dry.out, "renders/ebb/straight  48x36  to render")) << dry.out;
    EXPECT_TRUE(holds(dry.err, "night.txt:4")) << dry.err;
    EXPECT_FALSE(fs::exists(folder / "renders"));
    EXPECT_EQ(run_in(folder, "batch night.txt --page").code, 2);
    EXPECT_TRUE(fs::exists(folder / "renders/ebb/straight.json"));
    EXPECT_TRUE(fs::exists(folder / "renders/ebb/stock.png"));
    EXPECT_TRUE(holds(test::bytes_of(folder / "renders/ebb/index.html"), "straight"));
}

TEST(CommandBatch, KilledInTheMiddleAndResumedToTheSameBytes) {
    const test::Folder folder;
    write_layout(folder, "ebb.yaml", kTall);
    ASSERT_EQ(run_in(folder, "preview ebb.yaml --into whole --quiet").code, 0);
    // SIGKILL asks nobody: only what was saved on the way is there.
    EXPECT_EQ(cut_off(folder, "preview ebb.yaml --into cut --save-every 0", "KILL", "cut/ebb"), 128 + 9);
    EXPECT_FALSE(fs::exists(folder / "cut/ebb/straight.png"));
    const Outcome on = run_in(folder, "preview ebb.yaml --into cut --quiet");
    EXPECT_EQ(on.code, 0);
    EXPECT_TRUE(holds(on.err, "straight goes on from ")) << on.err;
    EXPECT_TRUE(same_files(folder / "cut/ebb", folder / "whole/ebb"));

    // A batch that is asked to stop asks its job to.
    std::ofstream(folder / "night.txt") << "preview ebb.yaml --save-every 0\n";
    EXPECT_EQ(cut_off(folder, "batch night.txt --into stopped", "INT", "stopped/ebb"), 130);
    EXPECT_FALSE(fs::exists(folder / "stopped/ebb/straight.png"));
    EXPECT_TRUE(holds(run_in(folder, "batch night.txt --into stopped --dry-run").out, " % done"));
    EXPECT_EQ(run_in(folder, "batch night.txt --into stopped --quiet").code, 0);
    EXPECT_TRUE(same_files(folder / "stopped/ebb", folder / "whole/ebb"));
    std::size_t files = 0;
    for ([[maybe_unused]] const auto& entry : fs::directory_iterator(folder / "stopped/ebb")) ++files;
    EXPECT_EQ(files, 3u) << "kept rows go away once the picture is there";
}

TEST(CommandBatch, EveryCombinationOfChoicesInAFolderOfItsOwn) {
    const test::Folder folder;
    write_layout(folder, "tide.yaml", kSmall);
    folder.write("night.txt",
                 "tide.yaml\n  for fields.sea.grout in black, sand\n  for panel.seed in 3, 4  # two hands\n");
    const Outcome o = run_in(folder, "batch night.txt");
    EXPECT_EQ(o.code, 0) << o.err;
    EXPECT_TRUE(holds(o.out, "4 jobs: 4 done")) << o.out;
    for (const char* name :
         {"grout-black_seed-3", "grout-black_seed-4", "grout-sand_seed-3", "grout-sand_seed-4"})
        EXPECT_TRUE(fs::exists(folder / ("renders/tide_" + std::string(name) + "/straight.png"))) << name;
    EXPECT_FALSE(fs::exists(folder / "renders/tide"));
    EXPECT_NE(test::bytes_of(folder / "renders/tide_grout-black_seed-3/straight.png"),
              test::bytes_of(folder / "renders/tide_grout-sand_seed-3/straight.png"));
    folder.write("night.txt", "tide.yaml\nfor fields.see.grout in black\n");
    test::expect_refused(folder, "batch night.txt", "did you mean sea?");
}

}  // namespace
}  // namespace rakelight
