// A page in pixels: sharp boxes of exact colour, lines of their width.
#include "output/paper/page.h"

#include <gtest/gtest.h>

namespace rakelight {
namespace {

const float* pixel(const Print& print, int x, int y) {
    return &print.rgb[3 * static_cast<std::size_t>(y * print.width + x)];
}

TEST(Page, BoxesAreSharpAndExact) {
    Page page;
    page.size_mm = {20, 10};
    page.paper = {0.5, 0.5, 0.5};
    page.boxes.push_back({{2, 3}, {4, 2}, {0.1, 0.2, 0.3}});
    for (const double fine : {1.0, 4.0, 10.0}) {
        const Print print = print_page(page, fine);
        EXPECT_EQ(print.width, 20 * fine);
        EXPECT_EQ(print.height, 10 * fine);
        for (int y = 0; y < print.height; ++y)
            for (int x = 0; x < print.width; ++x) {
                const bool in = x >= 2 * fine && x < 6 * fine && y >= 3 * fine && y < 5 * fine;
                ASSERT_EQ(pixel(print, x, y)[0], in ? 0.1f : 0.5f) << x << ' ' << y;
                ASSERT_EQ(pixel(print, x, y)[2], in ? 0.3f : 0.5f) << x << ' ' << y;
            }
        const PixelBox box = pixels_of(page.boxes[0], fine);
        EXPECT_EQ(box.at_px, glm::ivec2(2 * fine, 3 * fine));
        EXPECT_EQ(box.size_px, glm::ivec2(4 * fine, 2 * fine));
    }
}

TEST(Page, NeighboursTouchAtAnyFineness) {
    const PageBox left{{1.03, 0}, {2.21, 1}, {}}, right{{3.24, 0}, {1.7, 1}, {}};
    for (const double fine : {1.0, 3.3, 10.0, 11.8}) {
        const PixelBox a = pixels_of(left, fine), b = pixels_of(right, fine);
        EXPECT_EQ(a.at_px.x + a.size_px.x, b.at_px.x) << fine;
    }
}

TEST(Page, ALineCoversItsWidth) {
    Page page;
    page.size_mm = {30, 10};
    page.lines.push_back({{{5, 5}, {25, 5}}, 0.6, {0, 0, 0}});
    const Print print = print_page(page, 10);
    double ink_mm = 0;
    for (int y = 0; y < print.height; ++y) ink_mm += (1 - static_cast<double>(pixel(print, 150, y)[1])) / 10;
    EXPECT_NEAR(ink_mm, 0.6, 0.01);
    EXPECT_EQ(pixel(print, 40, 50)[0], 1.f);
    EXPECT_EQ(pixel(print, 260, 50)[0], 1.f);
}

TEST(Page, OutsideIsCutOff) {
    Page page;
    page.size_mm = {10, 10};
    page.boxes.push_back({{-5, -5}, {8, 8}, {0, 0, 0}});
    page.boxes.push_back({{50, 50}, {8, 8}, {0, 0, 0}});
    page.lines.push_back({{{-100, -100}, {300, 300}}, 1, {0, 0, 0}});
    page.lines.push_back({{}, 1, {0, 0, 0}});
    page.texts.push_back({"far", {900, -900}, 3, false, Align::left, {0, 0, 0}});
    const Print print = print_page(page, 5);
    EXPECT_EQ(pixel(print, 2, 2)[0], 0.f);
    EXPECT_EQ(pixel(print, 40, 4)[0], 1.f);
}

TEST(Page, WidthDoesNotDependOnFineness) {
    PageText text{"over epoxy-white", {0, 0}, 2, false, Align::left, {}};
    const double narrow = width_mm(text);
    text.size_mm = 4;
    EXPECT_NEAR(width_mm(text), 2 * narrow, 0.01);
    EXPECT_GT(narrow, 10);
    EXPECT_LT(narrow, 25);
}

}  // namespace
}  // namespace rakelight
