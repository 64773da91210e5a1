#include "scene/flow/rows_of_flow.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace rakelight {
namespace {

constexpr double kInf = std::numeric_limits<double>::infinity();

TEST(RowsOfFlow, StraightGuideGivesParallelRowsHalfAPitchOff) {
    // Closed form: row k beside a straight guide lies at (k - 1/2) pitches from it. How near is a threshold
    // of our own.
    const Lattice lattice = lattice_over({{0, 0}, {200, 150}}, 2.2);
    const auto rows =
        rows_of_flow(flow_from({{{{{-50, 70}, {250, 70}}, false}, kInf}}, lattice, 10), lattice, 10);
    EXPECT_GE(rows.size(), 14u);
    for (const auto& row : rows)
        for (const auto& p : row.line_mm) {
            const double k = std::abs(p.y - 70) / 10 + 0.5;
            EXPECT_NEAR(k, std::round(k), 0.03);
        }
}

TEST(RowsOfFlow, CircleGivesConcentricRows) {
    Row circle{{}, true};
    for (int i = 0; i < 240; ++i)
        circle.line_mm.emplace_back(100 + 60 * std::cos(i * 0.02617993878),
                                    100 + 60 * std::sin(i * 0.02617993878));
    const Lattice lattice = lattice_over({{20, 20}, {180, 180}}, 2);
    const auto rows = rows_of_flow(flow_from({{circle, kInf}}, lattice, 9), lattice, 9);
    int closed = 0;
    for (const auto& row : rows) {
        if (!row.closed) continue;
        ++closed;
        double low = 1e9, high = 0;
        for (const auto& p : row.line_mm) {
            const double r = glm::distance(p, glm::dvec2(100, 100));
            low = std::min(low, r);
            high = std::max(high, r);
        }
        if (low > 25) {                  // near the centre rows may end
            EXPECT_LT(high - low, 1.5);  // a sixth of a pitch: threshold of our own
        }
    }
    EXPECT_GE(closed, 4);
}

}  // namespace
}  // namespace rakelight
