#include "scene/flow/row_tips.h"

#include <gtest/gtest.h>

#include <cmath>

namespace rakelight {
namespace {

TEST(RowTips, AreDrawnBackToWhereThereIsRoom) {
    // Two rows that part as x / 5, and one between them from their meeting on: half way it stands x / 10 from
    // either, and 0.66 of a row of 10 mm is there at x = 66.
    std::vector<Row> rows{
        {{{0, 0}, {300, 30}}, false}, {{{0, 0}, {300, -30}}, false}, {{{0, 0}, {300, 0}}, false}};
    draw_back_tips(rows, 10);
    EXPECT_NEAR(rows[2].line_mm.front().x, 66, 3);
    EXPECT_NEAR(rows[2].line_mm.back().x, 300, 1e-9);
}

TEST(RowTips, RowsBesideOneAnotherAndRingsStay) {
    Row ring{{}, true};
    for (int i = 0; i < 60; ++i)
        ring.line_mm.emplace_back(100 + 4 * std::cos(i * 0.105), 50 + 4 * std::sin(i * 0.105));
    std::vector<Row> rows{{{{0, 0}, {200, 0}}, false}, {{{0, 10}, {200, 10}}, false}, ring};
    const auto before = rows;
    draw_back_tips(rows, 10);
    for (std::size_t r = 0; r < rows.size(); ++r) EXPECT_EQ(rows[r].line_mm, before[r].line_mm);
}

TEST(RowTips, ARowThatEndsWhereAnotherBeginsInLineIsOneRow) {
    const auto always = [](const glm::dvec2&, const glm::dvec2&) { return true; };
    // The second begins 15 mm on and 2 mm beside; its line is written from its far end.
    const std::vector<Row> broken{{{{0, 0}, {100, 0}}, false}, {{{200, 2}, {115, 2}}, false}};
    auto rows = broken;
    join_in_line(rows, 10, always);
    ASSERT_EQ(rows.size(), 1u);
    EXPECT_EQ(rows[0].line_mm, (std::vector<glm::dvec2>{{0, 0}, {100, 0}, {115, 2}, {200, 2}}));
    // Three in a row, given in any order.
    rows = {{{{120, 0}, {180, 0}}, false}, {{{300, 0}, {200, 0}}, false}, {{{100, 0}, {0, 0}}, false}};
    join_in_line(rows, 10, always);
    ASSERT_EQ(rows.size(), 1u);
    EXPECT_EQ(rows[0].line_mm.size(), 6u);
    for (std::size_t i = 2; i < 6; ++i)
        EXPECT_GT(
            (rows[0].line_mm[i].x - rows[0].line_mm[i - 1].x) * (rows[0].line_mm[1].x - rows[0].line_mm[0].x),
            0);
    // Not across a break, nor from row to row, nor back along itself, nor far away.
    rows = broken;
    join_in_line(rows, 10, [](const glm::dvec2&, const glm::dvec2&) { return false; });
    EXPECT_EQ(rows.size(), 2u);
    for (const Row& other : {Row{{{105, 10}, {200, 10}}, false}, Row{{{90, 2}, {200, 2}}, false},
                             Row{{{140, 0}, {240, 0}}, false}, Row{{{105, 3}, {105, 100}}, false}}) {
        rows = {broken[0], other};
        join_in_line(rows, 10, always);
        EXPECT_EQ(rows.size(), 2u) << other.line_mm.front().x;
    }
}

}  // namespace
}  // namespace rakelight
