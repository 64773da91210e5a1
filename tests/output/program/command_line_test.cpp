// The built program, run as a person would: exit codes, messages and what is left on the disk.
#include <gtest/gtest.h>

#include "tests/support/run_program.h"
#include "tests/support/test_film.h"

namespace rakelight {
namespace {

using test::holds;
using test::Outcome;
using test::run_in;

void write_tide(const test::Folder& folder) {
    std::ofstream(folder / "tide.yaml")
        << "panel:\n"
           "  name: Low tide\n"
           "  size: [120, 90]\n"
           "fields:\n"
           "  - {name: sea, opus: tessellatum, piece: 12, joint: 2, mix: slate}\n"
           "pictures:\n"
           "  - {name: straight, size: [48, 36], grain: 20 %, most samples: 16}\n"
           "  - {name: evening, size: [32, 24], grain: 50 %, most samples: 4}\n";
}

TEST(CommandLine, HelpAndVersion) {
    const test::Folder folder;
    for (const char* arguments :
         {"--help", "check --help", "preview --help", "join --help", "stock --help", "lay --help"}) {
        const Outcome o = run_in(folder, arguments);
        EXPECT_EQ(o.code, 0) << arguments;
        EXPECT_FALSE(o.out.empty()) << arguments;
    }
    EXPECT_TRUE(holds(run_in(folder, "preview --help").out, "Examples"));
    EXPECT_TRUE(holds(run_in(folder, "--version").out, "rakelight "));
}

TEST(CommandLine, WrongWordsEndWithTwo) {
    const test::Folder folder;
    write_tide(folder);
    for (const char* arguments :
         {"", "polish", "check", "preview", "join", "preview tide.yaml --size 9",
          "preview tide.yaml --grain 0", "preview tide.yaml --threads -1", "preview tide.yaml --part 3/2",
          "preview tide.yaml --rows 0-4", "preview tide.yaml --rows 1-4 --part 1/2",
          "preview tide.yaml --most-samples 0", "check missing.yaml", "preview missing.yaml", "stock",
          "stock missing.yaml", "stock tide.yaml --lamps moon"}) {
        const Outcome o = run_in(folder, arguments);
        EXPECT_EQ(o.code, 2) << arguments;
        EXPECT_FALSE(o.err.empty()) << arguments;
    }
    EXPECT_EQ(folder.entries(), 1u);
}

TEST(CommandLine, UnknownPictureNamesTheNearest) {
    const test::Folder folder;
    write_tide(folder);
    test::expect_refused(folder, "preview tide.yaml --picture evenning", "did you mean evening?");
}

TEST(CommandLine, BadLayoutSaysWhere) {
    const test::Folder folder;
    std::ofstream(folder / "bad.yaml") << "panel:\n  size: [120, -90]\n  colour: red\n";
    const Outcome o = run_in(folder, "check bad.yaml");
    EXPECT_EQ(o.code, 2);
    EXPECT_TRUE(holds(o.err, "bad.yaml:2:")) << o.err;
    EXPECT_TRUE(holds(o.err, "bad.yaml:3:")) << o.err;
}

TEST(CommandLine, WordsBelowTheOptionsFitATerminal) {
    const test::Folder folder;
    for (const char* command : {"all", "batch", "board", "check", "glare", "join", "lay", "match", "page",
                                "portfolio", "preview", "status", "stock", "take-off", "task"}) {
        const std::string help = run_in(folder, std::string(command) + " --help").out;
        const std::size_t options = help.find("Options:");
        const std::size_t footer = help.find("\n\n", options);
        ASSERT_NE(footer, std::string::npos) << command;
        std::istringstream lines(help.substr(footer));
        int count = 0;
        for (std::string line; std::getline(lines, line); ++count) EXPECT_LE(line.size(), 80u) << line;
        EXPECT_GT(count, 2) << help;
    }
}

TEST(CommandLine, CheckSaysWhatIsThere) {
    const test::Folder folder;
    write_tide(folder);
    const Outcome o = run_in(folder, "check tide.yaml");
    EXPECT_EQ(o.code, 0) << o.err;
    EXPECT_TRUE(holds(o.out, "sea"));
    EXPECT_TRUE(holds(o.out, "no problems found"));
    EXPECT_EQ(folder.entries(), 1u);
}

TEST(CommandLine, UnwritableFolderIsToldBeforeRendering) {
    const test::Folder folder;
    write_tide(folder);
    const Outcome o =
        run_in(folder, "preview tide.yaml --into tide.yaml --most-samples 100000 --grain 0.01%");
    EXPECT_EQ(o.code, 3);
    EXPECT_TRUE(holds(o.err, "tide.yaml")) << o.err;
    EXPECT_EQ(run_in(folder, "preview tide.yaml --into /proc/none").code, 3);
}

TEST(CommandLine, FullDiskLeavesNothing) {
    const test::Folder folder;
    write_tide(folder);
    const Outcome o =
        run_in(folder, "preview tide.yaml --picture straight --size 200x150 --quiet", "ulimit -f 4");
    EXPECT_EQ(o.code, 3) << o.err;
    EXPECT_TRUE(holds(o.err, "straight.exr")) << o.err;
    EXPECT_TRUE(std::filesystem::is_empty(folder / "renders/tide"));
}

TEST(CommandLine, PreviewWritesAllAndSharesJoinToTheSameBytes) {
    const test::Folder folder;
    write_tide(folder);
    const Outcome whole = run_in(folder, "preview tide.yaml --into whole --quiet");
    ASSERT_EQ(whole.code, 0) << whole.err;
    EXPECT_EQ(whole.err, "");
    for (const char* name :
         {"straight.png", "straight.exr", "straight.json", "evening.png", "evening.exr", "evening.json"}) {
        EXPECT_TRUE(std::filesystem::exists(folder / "whole/tide" / name)) << name;
        EXPECT_TRUE(holds(whole.out, name)) << name;
    }
    const std::string part = "preview tide.yaml --picture straight --into parts --quiet ";
    ASSERT_EQ(run_in(folder, part + "--part 1/2 --threads 1").code, 0);
    ASSERT_EQ(run_in(folder, part + "--rows 19-36").code, 0);
    EXPECT_FALSE(std::filesystem::exists(folder / "parts/tide/straight.png"));
    const Outcome joined = run_in(folder, "join parts/tide/*.exr --into joined");
    ASSERT_EQ(joined.code, 0) << joined.err;
    for (const char* name : {"straight.png", "straight.exr", "straight.json"})
        EXPECT_TRUE(test::bytes_of(folder / "joined" / name) == test::bytes_of(folder / "whole/tide" / name))
            << name;
    EXPECT_EQ(run_in(folder, "join parts/tide/straight.part-1-of-2.exr --into joined").code, 2);
    EXPECT_EQ(run_in(folder, "join tide.yaml --into joined").code, 3);
}

TEST(CommandLine, StockWritesASheetTheSameTwice) {
    const test::Folder folder;
    write_tide(folder);
    const Outcome o = run_in(folder, "stock tide.yaml");
    ASSERT_EQ(o.code, 0) << o.err;
    EXPECT_EQ(o.out, "renders/tide/stock.png\nrenders/tide/stock.json\n");
    ASSERT_EQ(run_in(folder, "stock tide.yaml --into again").code, 0);
    for (const char* name : {"stock.png", "stock.json"})
        EXPECT_TRUE(test::bytes_of(folder / "renders/tide" / name) ==
                    test::bytes_of(folder / "again/tide" / name))
            << name;
    EXPECT_TRUE(holds(test::bytes_of(folder / "again/tide/stock.json"), "\"slate\""));
    EXPECT_EQ(run_in(folder, "stock tide.yaml --into /proc/none").code, 3);
    const Outcome full = run_in(folder, "stock tide.yaml --into full", "ulimit -f 4");
    EXPECT_EQ(full.code, 3) << full.err;
    EXPECT_TRUE(std::filesystem::is_empty(folder / "full/tide"));
}

TEST(CommandLine, CtrlCStopsWithNothingHalfWritten) {
    const test::Folder folder;
    write_tide(folder);
    // Minutes of work, interrupted once its folder is there; without job control a shell starts jobs deaf to
    // SIGINT, so there is job control.
    const std::string command =
        "cd '" + folder.path().string() +
        "' && bash -c 'set -m; " RAKELIGHT_PROGRAM
        " preview tide.yaml --picture straight --size 3000x3000 --grain 0.01% --most-samples 256 2>/dev/null "
        "& "
        "for i in $(seq 600); do [ -d renders/tide ] && break; sleep 0.1; done; sleep 0.5; kill -INT $!; "
        "wait $!'";
    const int status = std::system(command.c_str());
    ASSERT_TRUE(WIFEXITED(status));
    EXPECT_EQ(WEXITSTATUS(status), 130);
    EXPECT_TRUE(std::filesystem::is_empty(folder / "renders/tide"));
}

TEST(CommandLine, AChangeIsTakenByEveryCommandThatReadsALayout) {
    const test::Folder folder;
    write_tide(folder);
    EXPECT_TRUE(holds(run_in(folder, "check tide.yaml --set fields.sea.grout=black").out, "grout black"));
    for (const char* command :
         {"all", "board", "check", "glare", "lay", "portfolio", "preview", "stock", "take-off"})
        test::expect_refused(
            folder, std::string(command) + " tide.yaml --set fields.see.grout=black",
            "--set fields.see.grout: found the unknown name \"see\", expected one of sea; did you mean sea?");
    const Outcome o =
        run_in(folder, "lay tide.yaml --set fields.sea.joint=3 --set panel.seed=4 --only pieces");
    EXPECT_EQ(o.code, 0) << o.err;
    EXPECT_TRUE(std::filesystem::exists(folder / "renders/tide_joint-3_seed-4")) << o.out;
    EXPECT_FALSE(std::filesystem::exists(folder / "renders/tide"));
}

TEST(CommandLine, AChangedLayoutIsAnotherScene) {
    const test::Folder folder;
    write_tide(folder);
    const auto scene = [&](const std::string& more, const std::string& name) {
        EXPECT_EQ(run_in(folder, "lay tide.yaml --only colours " + more).code, 0);
        const std::string text = test::bytes_of(folder / ("renders/" + name + "/laying.json"));
        return text.substr(std::min(text.find("scene_hash"), text.size()), 40);
    };
    const std::string plain = scene("", "tide"),
                      black = scene("--set fields.sea.grout=black", "tide_grout-black");
    EXPECT_EQ(plain.find("scene_hash"), 0u);
    EXPECT_NE(plain, black);
}

TEST(CommandLine, InchesAreShown) {
    const test::Folder folder;
    write_tide(folder);
    const Outcome o = run_in(folder, "check tide.yaml --set units=inches");
    EXPECT_EQ(o.code, 0) << o.err;
    EXPECT_TRUE(holds(o.out, "Low tide: 4.72 x 3.54 in")) << o.out;  // 120 / 25.4, 90 / 25.4
    EXPECT_TRUE(holds(o.out, "joint 0.079 in")) << o.out;
    EXPECT_FALSE(holds(o.out, " mm")) << o.out;
    test::expect_refused(folder, "check tide.yaml --set units=inch",
                         "found \"inch\", expected one of metric, inches");
}

TEST(CommandLine, LightsAreTakenWithCommas) {
    const test::Folder folder;
    write_tide(folder);
    const Outcome o =
        run_in(folder, "preview tide.yaml --picture straight --light 'gallery spot,dusk' --dry-run");
    EXPECT_EQ(o.code, 0) << o.err;
    EXPECT_TRUE(holds(o.out, "gallery")) << o.out;
    EXPECT_TRUE(holds(o.out, "dusk")) << o.out;
}

TEST(CommandLine, RangesArePlain) {
    const test::Folder folder;
    write_tide(folder);
    test::expect_refused(folder, "glare tide.yaml --veil-ratio 0", "found \"0\", expected 1.01 to 1000");
    EXPECT_FALSE(holds(run_in(folder, "glare --help").out, "00000"));
    EXPECT_FALSE(holds(run_in(folder, "preview --help").out, "00000"));
}

}  // namespace
}  // namespace rakelight
