// Widths: Unicode Standard Annex 11 (wide East Asian letters take two columns), combining marks none.
#include "output/system/progress.h"

#include <gtest/gtest.h>

#include "tests/support/test_film.h"

namespace rakelight {
namespace {

TEST(Progress, WidthOfText) {
    EXPECT_EQ(text_width("straight"), 8);
    EXPECT_EQ(text_width("été"), 3);
    EXPECT_EQ(text_width("e\xcc\x81"), 1);
    EXPECT_EQ(text_width("潮汐"), 4);
    EXPECT_EQ(text_width("\xff\xc3"), 2);
    EXPECT_EQ(text_width(""), 0);
}

TEST(Progress, LineNeverOverflowsAndSaysTheShare) {
    for (const char* label : {"straight", "潮汐潮汐潮汐潮汐潮汐潮汐", "", "a\nb\x1b[31m"})
        for (const int columns : {20, 40, 79, 200})
            for (const double share : {0.0, 0.5, 0.999, 1.0}) {
                const std::string line = progress_line(label, share, 5000, columns);
                EXPECT_LE(text_width(line), columns) << line;
                EXPECT_EQ(line.find_first_of("\n\x1b"), std::string::npos);
            }
    EXPECT_NE(progress_line("a", 0.5, 0, 80).find("50 %"), std::string::npos);
    EXPECT_NE(progress_line("a", 0.999, 0, 80).find("99 %"), std::string::npos);  // not done before it is
}

// Half done in 60 s: 60 s are left; a quarter done in 60 s: 3 minutes.
TEST(Progress, TimeLeft) {
    EXPECT_NE(progress_line("a", 0.5, 60, 80).find("about 60 s left"), std::string::npos);
    EXPECT_NE(progress_line("a", 0.25, 60, 80).find("about 3 min left"), std::string::npos);
    EXPECT_EQ(progress_line("a", 0.5, 1, 80).find("left"), std::string::npos);
}

std::string shown(ProgressKind kind) {
    const test::Folder folder;
    const std::string name = (folder / "out").string();
    std::FILE* stream = std::fopen(name.c_str(), "w");
    {
        Progress progress("a", kind, stream);
        for (int i = 1; i <= 100; ++i) progress.show(i / 100.0);
    }
    std::fclose(stream);
    return test::bytes_of(name);
}

TEST(Progress, PlainLinesEveryTenth) {
    const std::string text = shown(ProgressKind::plain);
    EXPECT_EQ(std::count(text.begin(), text.end(), '\n'), 10);
    EXPECT_EQ(text.rfind("a: 10 %\n", 0), 0u);
    EXPECT_NE(text.find("a: 100 %\n"), std::string::npos);
}

TEST(Progress, QuietSaysNothing) {
    EXPECT_EQ(shown(ProgressKind::quiet), "");
}

TEST(Progress, RedrawnEndsWithOneNewLine) {
    const std::string text = shown(ProgressKind::redrawn);
    EXPECT_EQ(std::count(text.begin(), text.end(), '\n'), 1);
    EXPECT_EQ(text.back(), '\n');
    EXPECT_NE(text.find("100 %"), std::string::npos);
}

TEST(Progress, AFileIsNoTerminal) {
    const test::Folder folder;
    std::FILE* stream = std::fopen((folder / "out").c_str(), "w");
    EXPECT_EQ(progress_kind(stream, false), ProgressKind::plain);
    EXPECT_EQ(progress_kind(stream, true), ProgressKind::quiet);
    std::fclose(stream);
}

}  // namespace
}  // namespace rakelight
