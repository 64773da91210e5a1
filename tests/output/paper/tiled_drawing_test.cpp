#include "output/paper/tiled_drawing.h"

#include <gtest/gtest.h>

#include <map>

#include "output/paper/sheet_furniture.h"

namespace rakelight {
namespace {

TEST(TiledDrawing, SheetsOverlapAndCoverAll) {
    for (const PaperSize& paper :
         {PaperSize{"A4", {210, 297}}, {"A3", {297, 420}}, {"Letter", {215.9, 279.4}}})
        for (const glm::dvec2& size : {glm::dvec2(100, 80), {600, 450}, {300, 1200}, {182, 242}}) {
            const Box part{{-10, 5}, glm::dvec2(-10, 5) + size};
            const SheetGrid grid = plan_sheets(part, paper, 12).grid;
            const Box first = grid.window(0, 0), last = grid.window(grid.across - 1, grid.down - 1);
            EXPECT_LE(first.low.x, part.low.x + 1e-9);
            EXPECT_LE(first.low.y, part.low.y + 1e-9);
            EXPECT_GE(last.high.x, part.high.x - 1e-9);
            EXPECT_GE(last.high.y, part.high.y - 1e-9);
            if (grid.across > 1) {
                EXPECT_NEAR(grid.window(0, 0).high.x - grid.window(1, 0).low.x, 12, 1e-9);
                // One sheet fewer would not do.
                EXPECT_LT(grid.window_mm.x + (grid.across - 2) * grid.step_mm.x, size.x);
            }
            if (grid.down > 1) {
                EXPECT_NEAR(grid.window(0, 0).high.y - grid.window(0, 1).low.y, 12, 1e-9);
            }
        }
}

TiledDrawing long_line() {
    TiledDrawing d;
    d.panel_mm = {500, 100};
    d.part_mm = {{0, 0}, {500, 100}};
    d.title = "line";
    d.whole.layers.push_back(furniture::inked("line", {{}, furniture::kBlack, 0.3, {}},
                                              {furniture::line_shape({{0, 50}, {500, 50}})}));
    return d;
}

// The crosses of two neighbours are at the same places of the panel, and as far from the line.
TEST(TiledDrawing, NeighboursShareTheirCrosses) {
    const auto pages = tiled_pages(long_line(), {"A4", {210, 297}}, 12);
    ASSERT_GT(pages.size(), 1u);
    std::map<std::string, int> seen;
    for (const Tracing& page : pages)
        for (const TracedLayer& layer : page.layers)
            if (layer.name == "register crosses")
                for (const PageText& text : layer.texts) ++seen[text.text];
    int shared = 0;
    for (const auto& [place, count] : seen) shared += count == 2;
    EXPECT_EQ(shared, static_cast<int>(2 * (pages.size() - 1)));
}

TEST(TiledDrawing, LeavesOutSheetsWithNothingToDo) {
    TiledDrawing d = long_line();
    d.whole.layers[0].shapes = {furniture::line_shape({{0, 50}, {90, 50}})};
    const auto all = tiled_pages(long_line(), {"A4", {210, 297}}, 12).size();
    EXPECT_LT(tiled_pages(d, {"A4", {210, 297}}, 12).size(), all);
    d.what_counts = {"another"};
    EXPECT_TRUE(tiled_pages(d, {"A4", {210, 297}}, 12).empty());
}

TEST(TiledDrawing, MirroredTwiceIsItself) {
    Tracing drawing = long_line().whole;
    drawing.layers[0].texts.push_back(furniture::word("here", {30, 20}, 3));
    drawing.layers[0].window = PageBox{{10, 0}, {100, 40}, {}};
    const Tracing once = mirrored(drawing, 500), twice = mirrored(once, 500);
    EXPECT_EQ(once.layers[0].texts[0].baseline_mm.x, 470);
    EXPECT_EQ(once.layers[0].texts[0].align, Align::right);
    EXPECT_EQ(once.layers[0].window->at_mm.x, 390);
    EXPECT_EQ(twice.layers[0].shapes[0].lines_mm, drawing.layers[0].shapes[0].lines_mm);
    EXPECT_EQ(twice.layers[0].texts[0].align, Align::left);
}

}  // namespace
}  // namespace rakelight
