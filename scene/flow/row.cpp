#include "scene/flow/row.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "scene/flow/keystone.h"

namespace rakelight {

namespace {

constexpr double kHeadGap = 0.12;  // of the pitch: distance of a piece's outer points from its head joints
constexpr double kPointsApart = 0.36;  // of the pitch: spacing of a piece's points
constexpr int kStepsPerPiece = 10;     // resolution of the search for heads

glm::dvec2 unit_or_x(const glm::dvec2& v) {
    const double length = glm::length(v);
    return length > 0 ? v / length : glm::dvec2(1, 0);
}

// Position and direction by arc length along an evenly resampled line.
class Walk {
  public:
    explicit Walk(const Row& row, double step_mm) : points_(resampled(row, step_mm)), closed_(row.closed) {
        at_.push_back(0);
        for (std::size_t i = 1; i < points_.size(); ++i)
            at_.push_back(at_.back() + glm::distance(points_[i], points_[i - 1]));
    }
    double length() const { return at_.back(); }
    glm::dvec2 point(double s) const {
        const std::size_t i = segment(s);
        const double span = at_[i + 1] - at_[i];
        return glm::mix(points_[i], points_[i + 1], span > 0 ? (wrap(s) - at_[i]) / span : 0.0);
    }
    glm::dvec2 along(double s, double reach) const {
        if (closed_) return unit_or_x(point(s + reach) - point(s - reach));
        return unit_or_x(point(std::min(s + reach, length())) - point(std::max(s - reach, 0.0)));
    }

  private:
    double wrap(double s) const {
        if (!closed_) return std::clamp(s, 0.0, length());
        return s - length() * std::floor(s / length());
    }
    std::size_t segment(double s) const {
        const auto it = std::upper_bound(at_.begin(), at_.end(), wrap(s));
        const auto i = static_cast<std::size_t>(std::max<std::ptrdiff_t>(it - at_.begin() - 1, 0));
        return std::min(i, points_.size() - 2);
    }

    std::vector<glm::dvec2> points_;
    bool closed_;
    std::vector<double> at_;
};

// Heads from 0 to the row's length, both included.
std::vector<double> head_stations(const Walk& walk, double start, const Pitch& pitch, double hand,
                                  const HeadJoints& heads, Rng& rng) {
    const double length = walk.length();
    const int steps = static_cast<int>(std::lround(length / pitch.along_mm * kStepsPerPiece));
    if (steps < 1.5 * kStepsPerPiece) {
        if (steps < 1.4 * kStepsPerPiece) return {0, length};
        return {0, length / 2, length};
    }
    const double step = length / steps;
    const int shortest = kStepsPerPiece * 5 / 10;
    const int longest = kStepsPerPiece * 15 / 10;
    std::vector<double> cost(static_cast<std::size_t>(steps) + 1, std::numeric_limits<double>::infinity());
    std::vector<int> from(cost.size(), 0);
    cost[0] = 0;
    std::vector<double> turn;  // direction of the row at each step
    for (int i = 0; i <= steps; ++i) {
        const glm::dvec2 along = walk.along(start + i * step, pitch.along_mm / 4);
        const double here = std::atan2(along.y, along.x);
        turn.push_back(turn.empty() ? here
                                    : turn.back() + std::remainder(here - turn.back(), 2 * std::numbers::pi));
    }
    const auto wedge_cost = [&](int from_step, int to_step) {
        const double wedge =
            std::abs(turn[static_cast<std::size_t>(to_step)] - turn[static_cast<std::size_t>(from_step)]);
        const double over = wedge / glm::radians(kMostWedge_deg) - 0.75;
        return over > 0 ? 900 * over * over : 0;
    };
    for (int i = shortest; i <= steps; ++i) {
        const double s = start + i * step;
        const double clash =
            i == steps ? 0 : 260 * heads.clash(walk.point(s), walk.along(s, pitch.along_mm / 4));
        for (int n = shortest; n <= std::min(longest, i); ++n) {
            const double off = (static_cast<double>(n) / kStepsPerPiece - 1) / 0.14;
            const double total = cost[static_cast<std::size_t>(i - n)] + off * off + clash +
                                 wedge_cost(i - n, i) + hand * 4 * rng.unit();
            if (total < cost[static_cast<std::size_t>(i)]) {
                cost[static_cast<std::size_t>(i)] = total;
                from[static_cast<std::size_t>(i)] = n;
            }
        }
    }
    std::vector<double> stations;
    for (int i = steps; i > 0; i -= from[static_cast<std::size_t>(i)]) {
        stations.push_back(i * step);
        if (from[static_cast<std::size_t>(i)] == 0) return {0, length};
    }
    stations.push_back(0);
    std::reverse(stations.begin(), stations.end());
    for (std::size_t i = 1; i + 1 < stations.size(); ++i)
        stations[i] += hand * 0.6 * pitch.along_mm * rng.spread();
    return stations;
}

}  // namespace

double HeadJoints::clash(const glm::dvec2& at_mm, const glm::dvec2& along) const {
    double worst = 0;
    heads_.each_near(at_mm, 1, [&](const glm::dvec2& head) {
        const glm::dvec2 r = head - at_mm;
        const double across = std::abs(cross(r, along));
        if (across < 0.4 * pitch_.across_mm || across > 1.5 * pitch_.across_mm) return;
        const double near = 1 - std::abs(glm::dot(r, along)) / (0.44 * pitch_.along_mm);
        worst = std::max(worst, near);
    });
    return worst * worst;
}

std::vector<glm::dvec2> resampled(const Row& row, double step_mm) {
    std::vector<glm::dvec2> line = row.line_mm;
    if (row.closed && !line.empty()) line.push_back(line.front());
    if (line.size() < 2) return line;
    double length = 0;
    for (std::size_t i = 1; i < line.size(); ++i) length += glm::distance(line[i], line[i - 1]);
    const int steps = std::max(1, static_cast<int>(std::lround(length / step_mm)));
    const double step = length / steps;
    std::vector<glm::dvec2> out{line.front()};
    double passed = 0;
    std::size_t i = 1;
    for (int k = 1; k < steps; ++k) {
        while (i + 1 < line.size() && passed + glm::distance(line[i], line[i - 1]) < k * step) {
            passed += glm::distance(line[i], line[i - 1]);
            ++i;
        }
        const double span = glm::distance(line[i], line[i - 1]);
        out.push_back(
            glm::mix(line[i - 1], line[i], span > 0 ? std::min((k * step - passed) / span, 1.0) : 0.0));
    }
    out.push_back(line.back());
    return out;
}

std::vector<Row> broken_at_corners(const Row& row, double span_mm, double turn_deg) {
    const double step = span_mm / 8;
    const auto line = resampled(row, step);
    const auto n = static_cast<std::ptrdiff_t>(line.size()) - (row.closed ? 1 : 0);
    if (n < 13) return {row};
    const std::ptrdiff_t half = 5;
    const auto point = [&](std::ptrdiff_t i) {
        return line[static_cast<std::size_t>(row.closed ? (i % n + n) % n
                                                        : std::clamp<std::ptrdiff_t>(i, 0, n - 1))];
    };
    std::vector<double> turn(static_cast<std::size_t>(n), 0.0);
    for (std::ptrdiff_t i = row.closed ? 0 : half; i < (row.closed ? n : n - half); ++i) {
        const glm::dvec2 a = unit_or_x(point(i) - point(i - half));
        const glm::dvec2 b = unit_or_x(point(i + half) - point(i));
        turn[static_cast<std::size_t>(i)] = std::acos(std::clamp(glm::dot(a, b), -1.0, 1.0));
    }
    std::vector<std::ptrdiff_t> corners;
    for (std::ptrdiff_t i = 0; i < n; ++i) {
        const double here = turn[static_cast<std::size_t>(i)];
        if (here < glm::radians(turn_deg)) continue;
        bool highest = true;
        for (std::ptrdiff_t k = -half; k <= half; ++k) {
            const std::ptrdiff_t j =
                row.closed ? (i + k + n) % n : std::clamp<std::ptrdiff_t>(i + k, 0, n - 1);
            const double there = turn[static_cast<std::size_t>(j)];
            if (there > here || (there == here && k < 0)) highest = false;
        }
        if (highest) corners.push_back(i);
    }
    if (corners.empty()) return {row};
    std::vector<Row> parts;
    const auto part = [&](std::ptrdiff_t first, std::ptrdiff_t last) {
        Row r;
        for (std::ptrdiff_t i = first; i <= last; ++i) r.line_mm.push_back(point(i));
        if (r.line_mm.size() > 1) parts.push_back(std::move(r));
    };
    if (!row.closed) part(0, corners.front());
    for (std::size_t c = 0; c + 1 < corners.size(); ++c) part(corners[c], corners[c + 1]);
    part(corners.back(), row.closed ? corners.front() + n : n - 1);
    return parts;
}

std::vector<Seed> cut_row(const Row& row, const Pitch& pitch, double hand, HeadJoints& heads, Rng& rng) {
    if (row.line_mm.size() < 2) return {};
    const Walk walk(row, 0.2 * std::min(pitch.along_mm, pitch.across_mm));
    if (!(walk.length() > 0)) return {};
    double start = 0;
    if (row.closed) {  // begin where a head is least in the way
        double least = std::numeric_limits<double>::infinity();
        for (int i = 0; i < 16; ++i) {
            const double s = pitch.along_mm * (i + rng.unit()) / 8;
            const double clash =
                heads.clash(walk.point(s), walk.along(s, pitch.along_mm / 4)) + 0.01 * rng.unit();
            if (clash < least) {
                least = clash;
                start = s;
            }
        }
    }
    const auto stations = head_stations(walk, start, pitch, hand, heads, rng);
    for (std::size_t i = row.closed ? 0 : 1; i + 1 < stations.size(); ++i) {
        heads.add(walk.point(start + stations[i]));
    }
    std::vector<Seed> seeds;
    for (std::size_t i = 0; i + 1 < stations.size(); ++i) {
        const double first = start + stations[i];
        const double last = start + stations[i + 1];
        const double gap =
            std::min(kHeadGap * std::min(pitch.along_mm, pitch.across_mm), 0.3 * (last - first));
        const int spans = std::max(
            1, static_cast<int>(std::ceil((last - first - 2 * gap) /
                                          (kPointsApart * std::min(pitch.along_mm, pitch.across_mm)))));
        Seed seed;
        seed.along = walk.along((first + last) / 2, (last - first) / 3);
        for (int k = 0; k <= spans; ++k) {
            const double s = first + gap + (last - first - 2 * gap) * k / spans;
            seed.points_mm.push_back(walk.point(s));
        }
        seeds.push_back(std::move(seed));
    }
    return seeds;
}

}  // namespace rakelight
