#include "scene/opus/eyes.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

#include "scene/geometry/edge_index.h"
#include "scene/geometry/polygon.h"

namespace rakelight {

namespace {

constexpr double kStep = 0.15;      // rows: spacing of the points that are looked at
constexpr double kTurns_rad = 2.6;  // a row that turns by so much turns back
constexpr double kTightest = 1.3;   // rows: on a wider circle pieces can be wedged
constexpr double kFilled = 0.85;    // rows: a turn on a narrower circle is itself part of the eye
constexpr double kClear = 0.5;      // rows: from an eye to the edge
constexpr std::size_t kCorners = 16;

// By how much the row turns at each of its points, radians.
std::vector<double> turns(const std::vector<glm::dvec2>& line, bool closed) {
    const std::size_t n = line.size();
    std::vector<double> turn(n, 0.0);
    for (std::size_t i = closed ? 0 : 1; i < (closed ? n : n - 1); ++i) {
        const glm::dvec2 a = line[i] - line[(i + n - 1) % n], b = line[(i + 1) % n] - line[i];
        turn[i] = std::atan2(cross(a, b), glm::dot(a, b));
    }
    return turn;
}

// The circle on which a row turns back within the shortest way.
std::optional<Eye> tightest_turn(const Row& row, double across_mm) {
    auto line = resampled(row, kStep * across_mm);
    if (row.closed && line.size() > 1) line.pop_back();
    const std::size_t n = line.size();
    if (n < 6) return std::nullopt;
    const auto turn = turns(line, row.closed);
    const auto reach = static_cast<std::size_t>(kTightest * kTurns_rad / kStep);
    // Of all bends up to a point; most rows do not bend enough anywhere.
    const std::size_t most = std::min(reach + 1, n);
    std::vector<double> bends(n + most + 1, 0.0);
    for (std::size_t i = 0; i < n + most; ++i) bends[i + 1] = bends[i] + std::abs(turn[i % n]);
    std::optional<Eye> best;
    double least = kTightest * across_mm;
    for (std::size_t first = 0; first < n; ++first) {
        if (bends[first + most] - bends[first] < kTurns_rad) continue;
        const std::size_t end = row.closed ? n : n - first;
        std::size_t k = 0;
        double sum = turn[first];
        while (std::abs(sum) < kTurns_rad && ++k <= reach && k < end) sum += turn[(first + k) % n];
        if (k > reach || k >= end) continue;
        const double radius = static_cast<double>(k) * kStep * across_mm / std::abs(sum);
        const glm::dvec2 tip = line[(first + k / 2) % n];
        const glm::dvec2 in = (line[first] + line[(first + k) % n]) / 2.0 - tip;
        const double deep = glm::length(in);
        if (radius >= least || !(deep > 0)) continue;
        least = radius;
        best = Eye{tip + radius / deep * in, radius, glm::dvec2(-in.y, in.x) / deep};
    }
    if (best) best->radius_mm += (least < kFilled * across_mm ? 0.5 : -0.5) * across_mm;
    return best;
}

}  // namespace

std::vector<Eye> eyes_of(const std::vector<Row>& rows, const Region& ground, double across_mm) {
    std::vector<Eye> turned, eyes;
    for (const Row& row : rows)
        if (const auto eye = tightest_turn(row, across_mm)) turned.push_back(*eye);
    if (turned.empty()) return eyes;
    const EdgeIndex edge(ground, 3 * across_mm);
    for (const Eye& eye : turned) {
        const bool apart = std::all_of(eyes.begin(), eyes.end(), [&](const Eye& other) {
            return glm::distance(other.middle_mm, eye.middle_mm) >
                   other.radius_mm + eye.radius_mm + across_mm;
        });
        if (apart && edge.inside_mm(eye.middle_mm) >= eye.radius_mm + kClear * across_mm) eyes.push_back(eye);
    }
    return eyes;
}

Ring outline_of(const Eye& eye, double drawn_in_mm) {
    Ring ring;
    for (std::size_t k = 0; k < kCorners; ++k) {
        const double turn = 2 * std::numbers::pi * (static_cast<double>(k) + 0.5) / kCorners;
        ring.push_back(eye.middle_mm +
                       (eye.radius_mm - drawn_in_mm) * glm::dvec2(std::cos(turn), std::sin(turn)));
    }
    return ring;
}

}  // namespace rakelight
