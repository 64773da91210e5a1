#include "scene/flow/row_tips.h"

#include <algorithm>

#include "scene/geometry/point_grid.h"

namespace rakelight {

namespace {

constexpr double kRoom = 0.66;  // rows: nearer to its neighbour a row has no room
constexpr double kMost = 8;     // rows: a tip is drawn back no farther
constexpr double kStep = 0.2;   // rows

struct OnRow {
    glm::dvec2 at;
    std::size_t row;
};

}  // namespace

void draw_back_tips(std::vector<Row>& rows, double across_mm) {
    PointGrid<OnRow> trodden(kRoom * across_mm);
    std::vector<std::vector<glm::dvec2>> lines;
    for (std::size_t r = 0; r < rows.size(); ++r) {
        lines.push_back(resampled(rows[r], kStep * across_mm));
        for (std::size_t i = 0; i < lines[r].size(); i += 2) trodden.add(lines[r][i], {lines[r][i], r});
    }
    const auto crowded = [&](const glm::dvec2& p, std::size_t row) {
        return !trodden.all_near(p, 1, [&](const OnRow& q) {
            return q.row == row || glm::distance(p, q.at) >= kRoom * across_mm;
        });
    };
    constexpr auto kMostSteps = static_cast<std::ptrdiff_t>(kMost / kStep);
    for (std::size_t r = 0; r < rows.size(); ++r) {
        if (rows[r].closed) continue;
        const auto& line = lines[r];
        const auto steps = [&](auto first, auto last) {
            last = std::min(last, first + std::min<std::ptrdiff_t>(kMostSteps, last - first));
            return std::find_if(first, last, [&](const glm::dvec2& p) { return !crowded(p, r); }) - first;
        };
        const std::ptrdiff_t front = steps(line.begin(), line.end()),
                             back = steps(line.rbegin(), line.rend());
        if (front + back > 0 && front + back + 2 <= std::ssize(line))
            rows[r].line_mm.assign(line.begin() + front, line.end() - back);
    }
}

}  // namespace rakelight
