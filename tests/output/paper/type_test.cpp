// Type: that it stands where it was asked to stand, at every size and in every script, and keeps to its room.
#include "output/paper/type.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <thread>

#include "output/paper/page.h"

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

PageText line(std::string text, double size_mm, bool bold = false) {
    return {std::move(text), {}, size_mm, bold, Align::left, kBlack};
}

// A millimetre a pixel.
void write(Print& print, const PageText& text) {
    Page page;
    page.texts = {text};
    print_over(print, page, 1);
}

TEST(Type, StandsOnTheBaselineAndKeepsToItsSide) {
    for (const double size : {12.0, 40.0, 150.0}) {
        PageText text = line("HIH", size);
        text.baseline_mm = {500, 200};
        const double wide = width_mm(text);
        for (const Align align : {Align::left, Align::centre, Align::right}) {
            text.align = align;
            Print print = white(1000, 300);
            write(print, text);
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
            EXPECT_NEAR(left_end_mm(text).x, left, 1e-9);
        }
    }
}

TEST(Type, WidthGrowsWithSizeAndBoldnessAndFiguresAreAlike) {
    EXPECT_NEAR(width_mm(line("Grout 12", 40)), 2 * width_mm(line("Grout 12", 20)), 1e-9);
    EXPECT_GT(width_mm(line("Grout 12", 20, true)), width_mm(line("Grout 12", 20)));
    for (const char* figure : {"0", "2", "3", "7", "9"})
        EXPECT_DOUBLE_EQ(width_mm(line(figure, 20)), width_mm(line("1", 20))) << figure;
    EXPECT_DOUBLE_EQ(width_mm(line("", 20)), 0);
}

// Cairo drops glyphs that it takes to be far off.
TEST(Type, ALongLineIsWholeAtAnySize) {
    for (const double size : {2.0, 8.0, 20.0}) {
        PageText text = line(std::string(60, 'H'), size);
        text.baseline_mm = {10, 30};
        const double wide = width_mm(text);
        Print print = white(20 + static_cast<int>(wide), 40);
        Page page;
        page.texts = {text};
        print_over(print, page, 1);
        const auto [low, high] = inked_mm(text);
        EXPECT_NEAR(high.x, 10 + wide, 0.2 * size);
        double ink_mm2 = 0;
        for (const float v : print.rgb) ink_mm2 += (1 - static_cast<double>(v)) / 3;
        PageText one = line("H", size);
        one.baseline_mm = {10, 30};
        Print alone = white(60, 40);
        write(alone, one);
        double one_mm2 = 0;
        for (const float v : alone.rgb) one_mm2 += (1 - static_cast<double>(v)) / 3;
        EXPECT_NEAR(ink_mm2, 60 * one_mm2, 0.02 * ink_mm2);
    }
    const std::vector<SetGlyph> glyphs = glyphs_of(line(std::string(60, 'H'), 1));
    EXPECT_EQ(glyphs.size(), 60u);
}

// Advances of DejaVu Sans in 2048ths of the em, of its table hmtx (fonts-dejavu 2.37: H 1540, I 604).
TEST(Type, IsOfTheChosenFamilyUnhinted) {
    EXPECT_NEAR(width_mm(line("H", 1)), 1540 / 2048.0, 2e-5);
    EXPECT_NEAR(width_mm(line("I", 1)), 604 / 2048.0, 2e-5);
}

// One character each, whatever its bytes; and what is no UTF-8 is not dropped without a mark.
TEST(Type, ReadsUtf8) {
    const double one = width_mm(line("e", 30));
    for (const char* text : {"\u00e9", "\u03b1", "\u0434"}) {
        EXPECT_GT(width_mm(line(text, 30)), 0.5 * one) << text;
        EXPECT_LT(width_mm(line(text, 30)), 1.5 * one) << text;
    }
    const double mark = width_mm(line("?", 30));
    for (const char* bad : {"\xff", "\xc3", "\x80"}) EXPECT_DOUBLE_EQ(width_mm(line(bad, 30)), mark);
    EXPECT_DOUBLE_EQ(width_mm(line("a\xe2\x82z", 30)), width_mm(line("a??z", 30)));
    // A surrogate and an overlong slash are no UTF-8 (RFC 3629, section 3).
    EXPECT_EQ(sound("\xed\xa0\x80"), "???");
    EXPECT_EQ(sound("\xc0\xaf"), "??");
    EXPECT_EQ(sound("a\nb\x7f"), "a b ");
}

TEST(Type, AnyLettersOfAName) {
    const char* const names[] = {"\u0398\u03ac\u03bb\u03b1\u03c3\u03c3\u03b1",
                                 "\u041f\u0440\u0438\u043b\u0438\u0432 \u0451\u0457\u045e",
                                 "E\u0301toile a\u0308 n\u0303 s\u0323\u0307 \u0113\u0301"};
    for (const char* name : names)
        for (const bool bold : {false, true}) EXPECT_EQ(missing_glyphs(line(name, 4, bold)), 0) << name;
    EXPECT_GT(missing_glyphs(line("\U0010fffd", 4)), 0);  // private use: no font has it
}

// Unicode 15, 2.11: a combining mark stands over its letter and takes no room of its own; together they are
// as the composed letter (canonical equivalence).
TEST(Type, CombiningAccentsStandOnTheirLetters) {
    EXPECT_NEAR(width_mm(line("e\u0301", 30)), width_mm(line("\u00e9", 30)), 1e-9);
    const auto top = [](const char* text) {
        Print print = white(80, 80);
        PageText t = line(text, 60);
        t.baseline_mm = {10, 70};
        write(print, t);
        return dark(print).top;
    };
    EXPECT_NEAR(top("e\u0301"), top("\u00e9"), 1);
    EXPECT_LT(top("e\u0301"), top("e") - 5);
    // In outlines too: the mark lies over the letter, not after it.
    const std::vector<SetGlyph> glyphs = glyphs_of(line("s\u0323\u0307", 1));
    ASSERT_FALSE(glyphs.empty());
    for (const SetGlyph& glyph : glyphs) EXPECT_LT(std::abs(glyph.at_em.x), width_mm(line("s", 1)) + 0.1);
}

TEST(Type, BreaksBetweenWordsAndWithinOneTooWide) {
    const PageText words = line("red glass, blue glass, and a pale-green stone from nowhere", 3);
    for (const double room : {12.0, 20.0, 40.0, 400.0}) {
        const std::vector<std::string> lines = wrapped(words, room);
        std::string all;
        for (const std::string& one : lines) {
            EXPECT_LE(width_mm(line(one, 3)), room + 1e-3) << one;
            EXPECT_FALSE(one.empty());
            EXPECT_FALSE(one.starts_with(' ') || one.ends_with(' ')) << one;
            if (!all.empty() && !all.ends_with('-')) all += ' ';
            all += one;
        }
        if (room > 15) {  // else words are broken
            EXPECT_EQ(all, words.text);
        }
    }
    EXPECT_EQ(wrapped(words, 400).size(), 1u);
    const std::string longest(60, 'm');
    std::string joined;
    for (const std::string& one : wrapped(line(longest, 3), 20)) {
        EXPECT_LE(width_mm(line(one, 3)), 20 + 1e-3);
        joined += one;
    }
    EXPECT_EQ(joined, longest);
}

TEST(Type, CutsBetweenLettersWithAnEllipsis) {
    const PageText name = line("a\u0301e\u0301i\u0301o\u0301u\u0301 \u0398\u03ac\u03bb\u03b1\u03c3", 3);
    EXPECT_EQ(cut(name, width_mm(name)).text, name.text);
    EXPECT_EQ(cut(name, 1000).text, name.text);
    for (double room = 4; room < width_mm(name) - 0.01; room += 0.5) {
        const std::string kept = cut(name, room).text;
        EXPECT_LE(width_mm(line(kept, 3)), room + 1e-3) << kept;
        ASSERT_TRUE(kept.ends_with("\u2026")) << kept;
        const std::string begun = kept.substr(0, kept.size() - 3);
        EXPECT_TRUE(name.text.starts_with(begun)) << kept;
        // No letter without the accent that follows it.
        EXPECT_FALSE(name.text.substr(begun.size()).starts_with("\u0301")) << kept;
        EXPECT_EQ(sound(begun), begun);
    }
}

TEST(Type, FitsBySizeThenByCutting) {
    const PageText name = line("a rather long name", 4);
    const double wide = width_mm(name);
    EXPECT_DOUBLE_EQ(fitted(name, wide + 1).size_mm, 4);
    EXPECT_NEAR(fitted(name, 0.7 * wide).size_mm, 2.8, 1e-9);
    EXPECT_EQ(fitted(name, 0.7 * wide).text, name.text);
    const PageText small = fitted(name, 0.3 * wide);
    EXPECT_DOUBLE_EQ(small.size_mm, 2);
    EXPECT_TRUE(small.text.ends_with("\u2026"));
    EXPECT_LE(width_mm(small), 0.3 * wide + 1e-3);
}

TEST(Type, CutOffAtTheEdgesAndNothingElseTouched) {
    Print print = white(60, 40);
    PageText text = line("WWW", 80, true);
    for (const glm::dvec2 at :
         {glm::dvec2(-30, 20), glm::dvec2(50, 60), glm::dvec2(-5000, 10), glm::dvec2(20, 9000)}) {
        text.baseline_mm = at;
        write(print, text);
    }
    EXPECT_EQ(print.rgb.size(), 3u * 60 * 40);
    Print far = white(60, 40);
    text.baseline_mm = {500, 20};
    write(far, text);
    EXPECT_FALSE(dark(far).any());
}

TEST(Type, SameTwiceAndInItsColour) {
    PageText text = line("I", 60, true);
    text.baseline_mm = {40, 80};
    text.colour = {0.2, 0.4, 0.6};
    Print first = white(200, 100), second = first;
    write(first, text);
    write(second, text);
    EXPECT_EQ(first.rgb, second.rgb);
    float least[3] = {1, 1, 1};
    for (std::size_t i = 0; i < first.rgb.size(); ++i) least[i % 3] = std::min(least[i % 3], first.rgb[i]);
    EXPECT_NEAR(least[0], 0.2, 1e-5);
    EXPECT_NEAR(least[1], 0.4, 1e-5);
    EXPECT_NEAR(least[2], 0.6, 1e-5);
}

TEST(Type, SameOnEveryThread) {
    PageText text = line("\u0398\u03ac\u03bb\u03b1\u03c3\u03c3\u03b1 fjord 12", 20);
    text.baseline_mm = {5, 40};
    Print alone = white(240, 60);
    write(alone, text);
    std::vector<Print> prints(6, white(240, 60));
    std::vector<std::thread> threads;
    for (Print& print : prints)
        threads.emplace_back([&] {
            for (int i = 0; i < 20; ++i) {
                print = white(240, 60);
                write(print, text);
            }
        });
    for (std::thread& thread : threads) thread.join();
    EXPECT_TRUE(dark(alone).any());
    for (const Print& print : prints) EXPECT_EQ(print.rgb, alone.rgb);
}

}  // namespace
}  // namespace rakelight
