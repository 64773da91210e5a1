// Words of the command line: values by their meaning, refusals for everything else.
#include "output/program/parse_options.h"
#include "scene/model/layout.h"

#include <gtest/gtest.h>

#include "output/system/errors.h"

namespace rakelight {
namespace {

TEST(ParseOptions, ErrorShares) {
    EXPECT_DOUBLE_EQ(parse_grain("2%"), 0.02);
    EXPECT_DOUBLE_EQ(parse_grain("2 %"), 0.02);
    EXPECT_DOUBLE_EQ(parse_grain("0.5%"), 0.005);
    EXPECT_DOUBLE_EQ(parse_grain("0.02"), 0.02);
    for (const char* bad :
         {"", "%", "0", "0%", "-1%", "2", "100%", "2%%", "nan", "inf", "two", "2 % x", "0x1p-4"})
        EXPECT_THROW(parse_grain(bad), RequestError) << bad;
}

TEST(ParseOptions, Sizes) {
    EXPECT_EQ(parse_size("1200x900"), glm::ivec2(1200, 900));
    EXPECT_EQ(parse_size("16x16384"), glm::ivec2(16, 16384));
    for (const char* bad :
         {"", "x", "1200", "1200x", "15x900", "900x16385", "1e3x900", "-9x900", "9 x 9", "99999999999x9"})
        EXPECT_THROW(parse_size(bad), RequestError) << bad;
}

TEST(ParseOptions, RowsCountFromOne) {
    EXPECT_EQ(parse_rows("1-900", 900), (RowRange{0, 900}));
    EXPECT_EQ(parse_rows("7-7", 900), (RowRange{6, 7}));
    for (const char* bad : {"", "-", "0-5", "5-4", "1-901", "a-b", "1--5", "1-2-3"})
        EXPECT_THROW(parse_rows(bad, 900), RequestError) << bad;
}

TEST(ParseOptions, SharesCoverEveryRowOnce) {
    for (const int height : {16, 17, 900, 901})
        for (const int of : {1, 2, 3, 7, 16}) {
            int next = 0;
            for (int which = 1; which <= of; ++which) {
                const RowRange rows = rows_of_part({which, of}, height);
                EXPECT_EQ(rows.first_row, next);
                EXPECT_GT(rows.end_row, rows.first_row);
                next = rows.end_row;
            }
            EXPECT_EQ(next, height);
        }
    EXPECT_EQ(parse_part("2/4").which, 2);
    EXPECT_EQ(parse_part("2/4").of, 4);
    for (const char* bad : {"", "/", "0/4", "5/4", "1/0", "1", "a/b", "-1/2"})
        EXPECT_THROW(parse_part(bad), RequestError) << bad;
    EXPECT_THROW(rows_of_part({1, 17}, 16), RequestError);
}

Layout three_pictures() {
    Layout layout;
    layout.sources.path = "tide.yaml";
    for (const char* name : {"straight", "evening", "raking light"})
        layout.views.pictures.emplace_back().name = name;
    return layout;
}

std::string complaint(const Layout& layout, std::vector<std::string> names) {
    try {
        choose_pictures(layout, names);
    } catch (const RequestError& e) {
        return e.what();
    }
    return "";
}

TEST(ParseOptions, PicturesByName) {
    const Layout layout = three_pictures();
    EXPECT_EQ(choose_pictures(layout, {}).size(), 3u);
    const std::vector<std::string> names{"evening", "straight", "evening"};
    const auto chosen = choose_pictures(layout, names);
    ASSERT_EQ(chosen.size(), 2u);
    EXPECT_EQ(chosen[0].name, "evening");
    EXPECT_EQ(chosen[1].name, "straight");
}

TEST(ParseOptions, UnknownPictures) {
    EXPECT_EQ(complaint(three_pictures(), {"evenning"}),
              "tide.yaml has no picture called evenning; did you mean evening?");
    EXPECT_EQ(complaint(three_pictures(), {"xylophone"}),
              "tide.yaml has no picture called xylophone; it has: straight, evening, raking light");
}

TEST(ParseOptions, TwoPicturesOneFile) {
    Layout layout = three_pictures();
    layout.views.pictures.emplace_back().name = "raking-light";
    EXPECT_NE(complaint(layout, {}).find("raking-light.png"), std::string::npos);
    EXPECT_EQ(complaint(layout, {"raking light"}), "");
}

}  // namespace
}  // namespace rakelight
