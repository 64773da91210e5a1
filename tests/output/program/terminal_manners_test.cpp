// The built program on a terminal and in a script: help, guesses, versions, JSON, nothing but text.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <regex>
#include <sstream>

#include "output/command_line/exit_codes.h"
#include "output/system/progress.h"
#include "tests/support/run_program.h"

namespace rakelight {
namespace {

using test::holds;
using test::Outcome;
using test::run_in;

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream in(text);
    for (std::string line; std::getline(in, line);) lines.push_back(line);
    return lines;
}

// As the help of the program lists them.
std::vector<std::string> commands(const test::Folder& folder) {
    std::vector<std::string> names;
    bool listed = false;
    for (const std::string& line : lines_of(run_in(folder, "--help").out)) {
        if (line.empty()) listed = false;
        if (listed && line[2] != ' ') names.push_back(line.substr(2, line.find(' ', 2) - 2));
        if (line.starts_with("Commands")) listed = true;
    }
    return names;
}

void write_tide(const test::Folder& folder) {
    std::ofstream(folder / "tide.yaml")
        << "panel: {name: Low tide, size: [120, 90]}\n"
           "fields: [{name: sea, opus: tessellatum, piece: 12, joint: 2, mix: slate}]\n"
           "pictures: [{name: straight, size: [48, 36], grain: 20 %, most samples: 16}]\n"
           "board: {test piece: {field: sea, size: 40}, columns: {grout: [white, black]}, most samples: 4}\n";
}

TEST(TerminalManners, HelpFitsEightyColumns) {
    const test::Folder folder;
    std::vector<std::string> helps{"--help"};
    for (const std::string& command : commands(folder)) helps.push_back(command + " --help");
    ASSERT_GE(helps.size(), 14u);
    for (const std::string& help : helps) {
        const Outcome o = run_in(folder, help);
        EXPECT_EQ(o.code, 0) << help;
        EXPECT_TRUE(holds(o.out, "Usage: rakelight")) << help;
        for (const std::string& line : lines_of(o.out))
            EXPECT_LE(text_width(line), 80) << help << ": " << line;
    }
}

TEST(TerminalManners, TheUsualCommandIsNamedFirst) {
    const test::Folder folder;
    EXPECT_EQ(commands(folder).front(), "preview");
    EXPECT_TRUE(holds(run_in(folder, "preview --help").out, "Examples:\n  rakelight preview tide.yaml\n"));
}

TEST(TerminalManners, HelpListsTheExitCodes) {
    const test::Folder folder;
    const std::string help = run_in(folder, "--help").out;
    for (const ExitCode& each : kExitCodes)
        EXPECT_TRUE(holds(help, fmt::format("\n  {:<4}  ", each.code))) << each.code;
}

TEST(TerminalManners, MistypedWordsGetTheNearest) {
    const test::Folder folder;
    write_tide(folder);
    for (const auto& [arguments, guess] : std::vector<std::pair<std::string, std::string>>{
             {"preveiw tide.yaml", "rakelight has no command preveiw; did you mean preview?"},
             {"Check tide.yaml", "did you mean check?"},
             {"preview tide.yaml --treads 1",
              "rakelight preview has no option --treads; did you mean --threads?"},
             {"preview --sizes=48x36", "did you mean --size?"},
             {"--verison", "rakelight has no option --verison; did you mean --version?"},
             {"preview tide.yaml --zzz 1", "rakelight preview has no option --zzz"},
             {"", "expected a command, such as `rakelight preview"},
             {"preview", "FILE is required"}}) {
        const Outcome o = run_in(folder, arguments);
        EXPECT_EQ(o.code, 2) << arguments;
        EXPECT_TRUE(holds(o.err, guess)) << arguments << "\n" << o.err;
        EXPECT_TRUE(holds(o.err, "--help` ")) << o.err;
        EXPECT_EQ(o.out, "");
    }
}

TEST(TerminalManners, TheVersionNamesLibrariesAndInstructionSet) {
    const test::Folder folder;
    const std::string version = run_in(folder, "--version").out;
    EXPECT_EQ(lines_of(version).front(), "rakelight " RAKELIGHT_VERSION);
    for (const char* part : {"x86-64-v3", "AVX2", "Embree 3.", "OpenImageIO 2.", "yaml-cpp", "oneTBB 20"})
        EXPECT_TRUE(holds(version, part)) << part << "\n" << version;
    EXPECT_FALSE(holds(version, " ,")) << "a library without its version\n" << version;
}

TEST(TerminalManners, JsonIsAllThatIsPrinted) {
    const test::Folder folder;
    write_tide(folder);
    for (const auto& [arguments, file] : std::vector<std::pair<std::string, std::string>>{
             {"check tide.yaml", ""},
             {"lay tide.yaml --only pieces", "laying.json"},
             {"take-off tide.yaml --only lists", "take-off.json"},
             {"board tide.yaml --pixels 64 --quiet", "board.json"},
             {"glare tide.yaml --most-samples 1 --quiet", "glare.json"}}) {
        const Outcome o = run_in(folder, arguments + " --json --threads 1");
        ASSERT_EQ(o.code, 0) << arguments << "\n" << o.err;
        EXPECT_TRUE(nlohmann::json::accept(o.out)) << arguments << "\n" << o.out;
        if (!file.empty()) {
            EXPECT_EQ(o.out, test::bytes_of(folder / "renders/tide" / file)) << arguments;
        }
    }
    const auto json = nlohmann::json::parse(run_in(folder, "check tide.yaml --json").out);
    EXPECT_EQ(json["fields"][0]["pieces"], json["pieces"]);
}

TEST(TerminalManners, WithoutATerminalThereIsNothingButText) {
    const test::Folder folder;
    write_tide(folder);
    const Outcome o = run_in(folder, "preview tide.yaml");
    ASSERT_EQ(o.code, 0);
    EXPECT_TRUE(holds(o.err, "straight: 100 %")) << o.err;
    EXPECT_EQ((o.out + o.err).find_first_of("\r\x1b"), std::string::npos);
}

// `script` of util-linux gives the program a terminal of its own.
std::string on_a_terminal(const test::Folder& folder, const std::string& environment) {
    const std::string command = "cd '" + folder.path().string() + "' && " + environment +
                                " script -qec \"" RAKELIGHT_PROGRAM " preview tide.yaml\" .typed >/dev/null";
    EXPECT_EQ(std::system(command.c_str()), 0);
    return test::bytes_of(folder / ".typed");
}

TEST(TerminalManners, ATerminalGetsALineRedrawnWithoutColour) {
    const test::Folder folder;
    write_tide(folder);
    const std::string usual = on_a_terminal(folder, "TERM=xterm NO_COLOR=1");
    EXPECT_TRUE(holds(usual, "\x1b[K")) << usual;
    EXPECT_FALSE(std::regex_search(usual, std::regex("\x1b\\[[0-9;]*m"))) << usual;
    const std::string dumb = on_a_terminal(folder, "TERM=dumb");
    EXPECT_TRUE(holds(dumb, "straight: 100 %")) << dumb;
    EXPECT_FALSE(holds(dumb, "\x1b")) << dumb;
}

TEST(TerminalManners, ADryRunDoesNotSayDone) {
    const test::Folder folder;
    write_tide(folder);
    const Outcome o = run_in(folder, "batch tide.yaml --dry-run");
    EXPECT_EQ(o.code, 0) << o.err;
    EXPECT_TRUE(holds(o.out, "1 jobs: 1 to do, 0 finished before, 0 wrong")) << o.out;
    EXPECT_FALSE(holds(o.out, "done")) << o.out;
}

}  // namespace
}  // namespace rakelight
