// Help, completion and man pages of a command line with odd words in it.
#include "output/command_line/help_text.h"

#include <gtest/gtest.h>

#include "output/command_line/completion.h"
#include "output/command_line/manual_page.h"
#include "output/command_line/mistyped.h"
#include "output/system/progress.h"
#include "tests/support/test_folder.h"

namespace rakelight {
namespace {

TEST(Wrapped, BreaksBetweenWordsAndCountsLettersNotBytes) {
    EXPECT_EQ(wrapped("one two three", 7, 0, 2), "one two\n  three");
    EXPECT_EQ(wrapped("one two", 7, 1, 0), "one\ntwo");
    EXPECT_EQ(wrapped("longerthanaline x", 7, 0, 0), "longerthanaline\nx");
    EXPECT_EQ(wrapped("äöü äöü", 7, 0, 0), "äöü äöü");
    EXPECT_EQ(wrapped("", 7, 0, 0), "");
}

TEST(FooterBlocks, ParagraphsAreJoinedAndListsStand) {
    const auto blocks = footer_blocks(
        "Writes\n  a.pdf   one thing\n          and another\n  b\nbroken in\ntwo.\n\nExample:\n  x:\n    y: "
        "1");
    ASSERT_EQ(blocks.size(), 5u);
    EXPECT_EQ(blocks[1].lines, (std::vector<std::string>{"  a.pdf   one thing and another", "  b"}));
    EXPECT_FALSE(blocks[1].apart);
    EXPECT_EQ(blocks[2].lines, std::vector<std::string>{"broken in two."});
    EXPECT_TRUE(blocks[3].apart);
    EXPECT_EQ(blocks[4].lines, (std::vector<std::string>{"  x:", "    y: 1"}));
}

TEST(ListLine, GoesOnBelowTheMeaning) {
    EXPECT_EQ(list_line("  a.pdf   one thing and another", 20),
              "  a.pdf   one thing\n          and\n          another");
}

// What a formatter, a shell or Markdown could take for its own.
constexpr const char* kOdd = "It's [odd]: *all* of $HOME, `x`, \\n <b> #1 ~ \"q\" a_b_c | 50 %";

struct OddProgram {
    CLI::App app{"Odd", "rakelight"};
    int number = 3;
    std::string word, other;
    OddProgram() {
        CLI::App* command = app.add_subcommand("polish", kOdd);
        auto* with =
            command->add_option("--number", number, kOdd)->check(CLI::Range(1, 9))->capture_default_str();
        command->add_option("--word", word, kOdd)->check(CLI::IsMember({"red", "blue"}))->excludes(with);
        command->add_option("FILE", other, "A file")->required();
        app.add_subcommand("secret", "Hidden")->group("");
    }
};

TEST(CommandTree, SaysWhatTheParserTakes) {
    const OddProgram odd;
    const std::vector<CommandWords> commands = commands_of(odd.app);
    ASSERT_EQ(commands.size(), 1u) << "hidden ones are left out";
    EXPECT_EQ(usage_of(commands[0]), "rakelight polish FILE [OPTIONS]");
    ASSERT_EQ(commands[0].options.size(), 3u);
    const OptionWords& number = commands[0].options[0];
    EXPECT_EQ(number.value, "NUMBER");
    EXPECT_EQ(number.told(), std::string(kOdd) + "; 1 to 9; not with --word (usual: 3)");
    EXPECT_EQ(commands[0].options[1].choices, (std::vector<std::string>{"red", "blue"}));
    EXPECT_EQ(commands[0].options[2].names.back(), "--help") << "what all commands have comes last";
    for (const std::string& line : CLI::detail::split(help_text(commands[0], {}), '\n'))
        EXPECT_LE(text_width(line), 80);
}

TEST(Completion, IsReadByItsShellWhateverAMeaningHolds) {
    const OddProgram odd;
    const test::Folder folder;
    for (const std::string& shell : kShells) {
        if (std::system(("command -v " + shell + " >/dev/null").c_str()) != 0) continue;
        std::ofstream(folder / shell) << completion(shell, words_of(odd.app), commands_of(odd.app));
        EXPECT_EQ(std::system((shell + " -n '" + (folder / shell).string() + "'").c_str()), 0) << shell;
    }
}

TEST(ManualPage, OddLettersComeThroughPandoc) {
    if (std::system("command -v pandoc >/dev/null") != 0) GTEST_SKIP() << "no pandoc";
    const OddProgram odd;
    const test::Folder folder;
    std::ofstream(folder / "page.md") << manual_page(commands_of(odd.app)[0]);
    const std::string command = "pandoc --from markdown-smart --to plain --wrap none '" +
                                (folder / "page.md").string() + "' >'" + (folder / "page").string() + "'";
    ASSERT_EQ(std::system(command.c_str()), 0);
    std::string code_shown = kOdd;  // backquotes are mark-up of ours
    std::erase(code_shown, '`');
    const std::string page = test::bytes_of(folder / "page");
    EXPECT_NE(page.find(code_shown), std::string::npos) << page;
}

TEST(Mistyped, StopsAtTwoDashesAndKnowsHiddenCommands) {
    const OddProgram odd;
    EXPECT_EQ(mistyped(odd.app, {"polich"}), "rakelight has no command polich; did you mean polish?");
    EXPECT_EQ(mistyped(odd.app, {"polish", "--numbr=4"}),
              "rakelight polish has no option --numbr; did you mean --number?");
    EXPECT_EQ(mistyped(odd.app, {"polish", "--", "--numbr"}), std::nullopt);
    EXPECT_EQ(mistyped(odd.app, {"secret"}), std::nullopt);
    EXPECT_EQ(mistyped(odd.app, {"sekret"}), "rakelight has no command sekret");
}

}  // namespace
}  // namespace rakelight
