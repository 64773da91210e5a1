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

}  // namespace
}  // namespace rakelight
