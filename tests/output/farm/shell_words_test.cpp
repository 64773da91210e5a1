// Names that a shell would take to pieces, through a real one.
#include "output/farm/shell_words.h"

#include <gtest/gtest.h>

#include <cstdlib>

#include "output/system/errors.h"
#include "tests/support/test_folder.h"

namespace rakelight {
namespace {

TEST(ShellWords, ComeOutOfTheShellAsTheyWentIn) {
    const test::Folder folder;
    for (const std::string word :
         {"plain",   "",        " ",    "o'clock",       "'",           "''",          "a\nb",
          "\n",      "$HOME",   "`id`", "\"two\" words", "back\\slash", "*",           "--into",
          "~",       "a;b|c&d", "!x",   "caf\xc3\xa9",   "\xff\xfe",    "tab\tbell\a", "{} {1} {=1=}",
          "# remark"}) {
        const std::string command =
            "printf %s " + shell_quoted(word) + " >'" + (folder / "out").string() + "'";
        ASSERT_EQ(std::system(command.c_str()), 0) << word;
        EXPECT_EQ(test::bytes_of(folder / "out"), word);
    }
}

TEST(ShellWords, RefuseWhatNoArgumentCanHold) {
    EXPECT_THROW(shell_quoted(std::string_view("a\0b", 3)), RequestError);
}

}  // namespace
}  // namespace rakelight
