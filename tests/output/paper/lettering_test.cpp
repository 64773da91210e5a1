// Words on a print: that they stand where they were asked to stand, at every size and in every script.
#include "output/paper/lettering.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace rakelight {
namespace {

constexpr EncodedSrgb kBlack{0, 0, 0};

Print white(int width, int height) {
    return {width, height, std::vector<float>(3 * static_cast<std::size_t>(width * height), 1.f)};
}

// Smallest box round what is darker than half.
struct Extent {
    int left = 1 << 20, right = -1, top = 1 << 20, bottom = -1;
    bool any() const { return right >= 0; }
};

Extent dark(const Print& print) {
    Extent e;
    for (int y = 0; y < print.height; ++y)
        for (int x = 0; x < print.width; ++x)
            if (print.rgb[3 * static_cast<std::size_t>(y * print.width + x)] < 0.5f)
                e = {std::min(e.left, x), std::max(e.right, x), std::min(e.top, y), std::max(e.bottom, y)};
    return e;
}

TEST(Lettering, StandsOnTheBaselineAndKeepsToItsSide) {
    for (const double size : {12.0, 40.0, 150.0}) {
        Lettering how{size, false, Align::left, kBlack};
        const double wide = text_width_px("HIH", how);
        for (const Align align : {Align::left, Align::centre, Align::right}) {
            how.align = align;
            Print print = white(1000, 300);
            write_text(print, "HIH", {500, 200}, how);
            const Extent e = dark(print);
            ASSERT_TRUE(e.any());
            EXPECT_NEAR(e.bottom + 1, 200, 1.5);
            const double left = align == Align::left     ? 500
                                : align == Align::centre ? 500 - wide / 2
                                                         : 500 - wide;
            EXPECT_GE(e.left, left - 1);
            EXPECT_LE(e.right, left + wide + 1);
            EXPECT_GT(e.right - e.left, 0.8 * wide);
            EXPECT_LT(e.top, 200 - 0.6 * size);
            EXPECT_GT(e.top, 200 - 0.9 * size);
        }
    }
}

TEST(Lettering, WidthGrowsWithSizeAndBoldnessAndFiguresAreAlike) {
    const Lettering how{20, false, Align::left, kBlack};
    Lettering twice = how, bold = how;
    twice.size_px = 40;
    bold.bold = true;
    EXPECT_NEAR(text_width_px("Grout 12", twice), 2 * text_width_px("Grout 12", how), 0.5);
    EXPECT_GT(text_width_px("Grout 12", bold), text_width_px("Grout 12", how));
    for (const char* figure : {"0", "2", "3", "7", "9"})
        EXPECT_DOUBLE_EQ(text_width_px(figure, how), text_width_px("1", how)) << figure;
    EXPECT_DOUBLE_EQ(text_width_px("", how), 0);
}

// One character each, whatever its bytes; and what is no UTF-8 is not dropped without a mark.
TEST(Lettering, ReadsUtf8) {
    const Lettering how{30, false, Align::left, kBlack};
    const double one = text_width_px("e", how);
    for (const char* text : {"\u00e9", "\u03b1", "\u0434"}) {
        EXPECT_GT(text_width_px(text, how), 0.5 * one) << text;
        EXPECT_LT(text_width_px(text, how), 1.5 * one) << text;
    }
    const double mark = text_width_px("?", how);
    for (const char* broken : {"\xff", "\xc3", "\x80"}) EXPECT_DOUBLE_EQ(text_width_px(broken, how), mark);
    EXPECT_DOUBLE_EQ(text_width_px("a\xe2\x82z", how), text_width_px("a??z", how));
}

TEST(Lettering, CutOffAtTheEdgesAndNothingElseTouched) {
    Print print = white(60, 40);
    const Lettering how{80, true, Align::left, kBlack};
    for (const glm::dvec2 at :
         {glm::dvec2(-30, 20), glm::dvec2(50, 60), glm::dvec2(-5000, 10), glm::dvec2(20, 9000)})
        write_text(print, "WWW", at, how);
    EXPECT_EQ(print.rgb.size(), 3u * 60 * 40);
    Print far = white(60, 40);
    write_text(far, "WWW", {500, 20}, how);
    EXPECT_FALSE(dark(far).any());
}

TEST(Lettering, SameTwiceAndInItsColour) {
    const Lettering how{60, true, Align::left, {0.2, 0.4, 0.6}};
    Print first = white(200, 100), second = first;
    write_text(first, "I", {40, 80}, how);
    write_text(second, "I", {40, 80}, how);
    EXPECT_EQ(first.rgb, second.rgb);
    float least[3] = {1, 1, 1};
    for (std::size_t i = 0; i < first.rgb.size(); ++i) least[i % 3] = std::min(least[i % 3], first.rgb[i]);
    EXPECT_NEAR(least[0], 0.2, 1e-5);
    EXPECT_NEAR(least[1], 0.4, 1e-5);
    EXPECT_NEAR(least[2], 0.6, 1e-5);
}

}  // namespace
}  // namespace rakelight
