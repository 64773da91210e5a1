#include "scene/drawing/svg/number.h"

#include <gtest/gtest.h>

#include "scene/drawing/svg/names.h"

namespace rakelight {
namespace {

// SVG 1.1, 4.2 <number> and the number grammar of 8.3.9.
TEST(SvgNumber, GrammarOfTheStandard) {
    const struct {
        const char* text;
        double value;
    } good[] = {{"1e3", 1000}, {".5", .5}, {"+4.5", 4.5}, {"-.5e-1", -.05}, {" \t12 ", 12}, {"0", 0}};
    for (const auto& each : good) {
        std::string_view text = each.text;
        EXPECT_EQ(take_svg_number(text), each.value) << each.text;
        EXPECT_TRUE(text.empty()) << each.text;
    }
    for (const char* bad : {"", "x", "inf", "nan", "-inf", "--1", "+-1", "e3", ".", "-", "1e999"}) {
        std::string_view text = bad;
        EXPECT_FALSE(take_svg_number(text)) << bad;
        EXPECT_EQ(text, bad);
    }
    // Numbers that end where another must begin.
    EXPECT_EQ(read_svg_numbers("1-2.5.5,3 4"), (std::vector<double>{1, -2.5, .5, 3, 4}));
    EXPECT_FALSE(read_svg_numbers("1,,2"));
    EXPECT_FALSE(read_svg_numbers("1 2 x"));
}

// CSS 2.1, 4.3.2: 1 in = 2.54 cm = 25.4 mm = 72 pt = 6 pc = 96 px.
TEST(SvgNumber, AnInchInEveryUnit) {
    for (const char* inch : {"1in", "2.54cm", "25.4mm", "72pt", "6pc", "96px", "96", " 96 "})
        EXPECT_NEAR(*read_svg_length_px(inch), 96, 1e-12) << inch;
    EXPECT_NEAR(96 * kMmPerPx, 25.4, 1e-12);
    for (const char* bad : {"50%", "2em", "1ex", "mm", "1 2", "12furlong", ""})
        EXPECT_FALSE(read_svg_length_px(bad)) << bad;
}

// 6.4: what `style` says goes before the attribute of the same name.
TEST(SvgNumber, StyleGoesBeforeTheAttribute) {
    pugi::xml_document document;
    document.load_string(
        "<a style=' fill : none ;display:none!important;;x' display='inline' stroke='red'/>");
    const pugi::xml_node a = document.document_element();
    EXPECT_EQ(svg_property(a, "fill"), "none");
    EXPECT_EQ(svg_property(a, "display"), "none");
    EXPECT_EQ(svg_property(a, "stroke"), "red");
    EXPECT_EQ(svg_property(a, "clip-path"), "");
}

// The escape of ISO/IEC 9075-14, and counters that make an id unique: common practice, no published source.
TEST(SvgNames, PlainNameOfAnId) {
    EXPECT_EQ(plain_name("sea"), "sea");
    EXPECT_EQ(plain_name("sea_1_"), "sea");
    EXPECT_EQ(plain_name("deep_x20_sea_12_"), "deep sea");
    EXPECT_EQ(plain_name("_x0033_rd"), "3rd");
    EXPECT_EQ(plain_name("br_xFC_cke"),
              "br\xc3\xbc"
              "cke");
    for (const char* same :
         {"", "_", "__", "sea_", "_1_", "sea_x_", "sea_x2", "_x_", "_xzz_a", "row_2", "_x00_a"})
        EXPECT_EQ(plain_name(same), same);
}

TEST(SvgNames, LabelsOfAnyVocabulary) {
    const auto named = [](const char* text) {
        pugi::xml_document document;
        document.load_string(text);
        return svg_name_of(document.document_element());
    };
    EXPECT_EQ(named("<g id='g7' a:label='deep sea'/>").label, "deep sea");
    EXPECT_EQ(named("<g id='sea1' b:id='sea'/>").label, "sea");
    EXPECT_EQ(named("<g id='sea1' data-name='sea'/>").label, "sea");
    EXPECT_EQ(named("<g id='sea_1_'/>").label, "sea");
    EXPECT_EQ(named("<g id='sea_1_'/>").id, "sea_1_");
    EXPECT_EQ(named("<g label='x' name='y'/>").shown(), "");
}

}  // namespace
}  // namespace rakelight
