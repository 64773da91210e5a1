// Comma-separated values against the rules of RFC 4180, section 2.
#include "scene/text/csv.h"

#include <gtest/gtest.h>

namespace rakelight {
namespace {

using Records = std::vector<std::vector<std::string>>;

Records read(std::string_view text) {
    Records all;
    CsvReader reader(text);
    std::vector<CsvCell> cells;
    while (reader.next(cells)) {
        all.emplace_back();
        for (const CsvCell& cell : cells) all.back().push_back(cell.text);
    }
    EXPECT_EQ(reader.problem(), "");
    return all;
}

// Rules 1, 2, 4, 5, 6 and 7, in the RFC's own examples.
TEST(Csv, ReadsWhatTheRfcSays) {
    const Records plain{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}};
    EXPECT_EQ(read("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n"), plain);
    EXPECT_EQ(read("aaa,bbb,ccc\r\nzzz,yyy,xxx"), plain);
    EXPECT_EQ(read("\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx"), plain);
    EXPECT_EQ(read("\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx"),
              (Records{{"aaa", "b\r\nbb", "ccc"}, plain[1]}));
    EXPECT_EQ(read("\"aaa\",\"b\"\"bb\",\"ccc\""), (Records{{"aaa", "b\"bb", "ccc"}}));
}

TEST(Csv, ReadsWhatSpreadsheetsMakeOfIt) {
    EXPECT_EQ(read("\xef\xbb\xbfid;x\n1;2,5\n\n3;\n"), (Records{{"id", "x"}, {"1", "2,5"}, {"3", ""}}));
    EXPECT_EQ(read("id\tx\r1\t2\r"), (Records{{"id", "x"}, {"1", "2"}}));
    EXPECT_EQ(read(""), Records{});
}

TEST(Csv, CellsKnowTheirPlace) {
    CsvReader reader("a,b\r\n\"x\ny\",z\r\n");
    std::vector<CsvCell> cells;
    ASSERT_TRUE(reader.next(cells) && reader.next(cells));
    EXPECT_EQ(cells[0].line, 2);
    EXPECT_EQ(cells[0].column, 1);
    EXPECT_EQ(cells[1].line, 3);
    EXPECT_EQ(cells[1].column, 4);
}

TEST(Csv, AnOpenQuoteIsToldWhereItBegan) {
    for (const char* text : {"a,b\n1,\"2\n3,4\n", "a,b\n1,\"2\"3\n"}) {
        CsvReader reader(text);
        std::vector<CsvCell> cells;
        while (reader.next(cells)) {
        }
        EXPECT_NE(reader.problem(), "") << text;
        EXPECT_EQ(reader.line(), 2) << text;
    }
}

// Rule 6 and 7: what is written reads back.
TEST(Csv, WrittenCellsReadBack) {
    const std::vector<std::string> cells{"plain",        "with,comma", "with \"quotes\"",
                                         "two\r\nlines", " blank ",    "a;b"};
    std::string text;
    for (const auto& cell : cells) {
        if (!text.empty()) text += ',';
        append_csv(text, cell);
    }
    EXPECT_EQ(read(text), Records{cells});
}

// A cell that begins with = + - @, a tab or a carriage return is a formula to a spreadsheet (OWASP, "CSV
// injection"), in quotes or not; an apostrophe before it makes it a text.
TEST(Csv, NamesAreNoFormulas) {
    for (const std::string name : {"=1+1", "+1+1", "-2+3", "@SUM(A1)", "\t=1", "\r=1", "'=1", "''@x",
                                   "=cmd|' /C calc'!A0", "'tis", "-1.5", "+20", "plain", "", "'", "-"}) {
        std::string text;
        append_csv(text, name);
        text += ",end\r\n";
        CsvReader reader(text);
        std::vector<CsvCell> cells;
        ASSERT_TRUE(reader.next(cells)) << name;
        const std::string& cell = cells.front().text;
        EXPECT_EQ(csv_name(cell), name);
        const bool number = name == "-1.5" || name == "+20";
        if (!number && !cell.empty()) {
            EXPECT_EQ(std::string("=+-@\t\r").find(cell.front()), std::string::npos) << cell;
        }
        if (number || name == "'tis" || name == "plain") {
            EXPECT_EQ(cell, name);
        }
    }
}

}  // namespace
}  // namespace rakelight
