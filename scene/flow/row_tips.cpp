#include "scene/flow/row_tips.h"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "scene/geometry/point_grid.h"
#include "scene/geometry/polygon.h"

namespace rakelight {

namespace {

constexpr double kRoom = 0.66;  // rows: nearer to its neighbour a row has no room
constexpr double kMost = 8;     // rows: a tip is drawn back no farther
constexpr double kStep = 0.2;   // rows

constexpr double kGap = 2;       // rows: between two ends that are joined
constexpr double kInLine = 0.4;  // rows: how far beside an end, going straight on, the other may lie
constexpr double kOneWay = 0.9;  // cosine between them

struct OnRow {
    glm::dvec2 at;
    std::size_t row;
};

struct End {
    std::size_t row;
    bool front;
    glm::dvec2 at, out;  // outwards, unit
};

// The open ends of rows long enough to have a direction.
std::vector<End> ends_of(const std::vector<Row>& rows, double across_mm) {
    std::vector<End> ends;
    for (std::size_t r = 0; r < rows.size(); ++r) {
        if (rows[r].closed) continue;
        const auto line = resampled(rows[r], kStep * across_mm);
        constexpr std::size_t kBack = 5;
        if (line.size() <= kBack) continue;
        const glm::dvec2 front = line.front() - line[kBack],
                         back = line.back() - line[line.size() - 1 - kBack];
        if (!(glm::length(front) > 0) || !(glm::length(back) > 0)) continue;
        ends.push_back({r, true, line.front(), glm::normalize(front)});
        ends.push_back({r, false, line.back(), glm::normalize(back)});
    }
    return ends;
}

struct Meeting {
    std::size_t from, to;
    double gap_mm;
};

}  // namespace

void join_in_line(std::vector<Row>& rows, double across_mm,
                  const std::function<bool(const glm::dvec2&, const glm::dvec2&)>& may_join) {
    const auto ends = ends_of(rows, across_mm);
    PointGrid<std::size_t> grid(kGap * across_mm);
    for (std::size_t e = 0; e < ends.size(); ++e) grid.add(ends[e].at, e);
    std::vector<Meeting> meetings;
    for (std::size_t e = 0; e < ends.size(); ++e)
        grid.each_near(ends[e].at, 1, [&](std::size_t f) {
            const End &a = ends[e], &b = ends[f];
            const glm::dvec2 way = b.at - a.at;
            if (f <= e || a.row == b.row || glm::length(way) > kGap * across_mm ||
                glm::dot(a.out, b.out) > -kOneWay || glm::dot(way, a.out) < 0 || glm::dot(way, b.out) > 0 ||
                std::abs(cross(way, a.out)) > kInLine * across_mm ||
                std::abs(cross(way, b.out)) > kInLine * across_mm)
                return;
            meetings.push_back({e, f, glm::length(way)});
        });
    std::sort(meetings.begin(), meetings.end(), [](const Meeting& a, const Meeting& b) {
        return std::tie(a.gap_mm, a.from, a.to) < std::tie(b.gap_mm, b.from, b.to);
    });
    // By the end met: where its row has gone, and which end of that it is now.
    std::vector<char> done(ends.size(), 0);
    std::vector<std::size_t> now(rows.size());
    for (std::size_t r = 0; r < rows.size(); ++r) now[r] = r;
    const auto of = [&](std::size_t row) {
        while (now[row] != row) row = now[row];
        return row;
    };
    for (const Meeting& meeting : meetings) {
        const End &a = ends[meeting.from], &b = ends[meeting.to];
        const std::size_t into = of(a.row), other = of(b.row);
        if (done[meeting.from] || done[meeting.to] || into == other || !may_join(a.at, b.at)) continue;
        done[meeting.from] = done[meeting.to] = 1;
        auto &line = rows[into].line_mm, &more = rows[other].line_mm;
        if (line.front() == a.at) std::reverse(line.begin(), line.end());
        if (more.back() == b.at) std::reverse(more.begin(), more.end());
        line.insert(line.end(), more.begin(), more.end());
        more.clear();
        now[other] = into;
    }
    std::erase_if(rows, [](const Row& row) { return row.line_mm.empty(); });
}

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
