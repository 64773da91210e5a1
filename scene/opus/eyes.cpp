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
constexpr double kOpens_rad = 1.8;  // by so much: its legs draw apart
constexpr double kTightest = 1.3;   // rows: on a wider circle pieces can be wedged
constexpr double kFilled = 0.85;    // rows: a turn on a narrower circle is itself part of the eye
constexpr double kClear = 0.5;      // rows: from an eye to the edge
constexpr double kDrop = 0.55;      // rows: radius of a drop
constexpr double kFarthest = 2.5;   // rows: from a turn to the middle of its drop
constexpr double kLegs = 2.4;       // rows: how far along them a turn's legs are looked at
constexpr double kPoint = 0.4;      // rows: how far a drop reaches into its turn by itself
constexpr double kRounded = 0.22;   // rows: radius of its corners
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

// The place at which a row turns within the shortest way.
struct Turn {
    glm::dvec2 tip{0}, in{0, 1};  // its middle; unit, towards the inside
    double radius_mm = 0;
    std::size_t at = 0;  // of the points
};

// Null where a row turns by less, or on a circle on which pieces can be wedged.
std::optional<Turn> tightest_turn(const std::vector<glm::dvec2>& line, bool closed, double turns_rad,
                                  double across_mm) {
    const std::size_t n = line.size();
    if (n < 6) return std::nullopt;
    const auto turn = turns(line, closed);
    const auto reach = static_cast<std::size_t>(kTightest * turns_rad / kStep);
    // Of all bends up to a point; most rows do not bend enough anywhere.
    const std::size_t most = std::min(reach + 1, n);
    std::vector<double> bends(n + most + 1, 0.0);
    for (std::size_t i = 0; i < n + most; ++i) bends[i + 1] = bends[i] + std::abs(turn[i % n]);
    std::optional<Turn> best;
    double least = kTightest * across_mm;
    for (std::size_t first = 0; first < n; ++first) {
        if (bends[first + most] - bends[first] < turns_rad) continue;
        const std::size_t end = closed ? n : n - first;
        std::size_t k = 0;
        double sum = turn[first];
        while (std::abs(sum) < turns_rad && ++k <= reach && k < end) sum += turn[(first + k) % n];
        if (k > reach || k >= end) continue;
        const double radius = static_cast<double>(k) * kStep * across_mm / std::abs(sum);
        const glm::dvec2 tip = line[(first + k / 2) % n];
        const glm::dvec2 in = (line[first] + line[(first + k) % n]) / 2.0 - tip;
        const double deep = glm::length(in);
        if (radius >= least || !(deep > 0)) continue;
        least = radius;
        best = Turn{tip, in / deep, radius, first + k / 2};
    }
    return best;
}

double distance_to(const std::vector<glm::dvec2>& line, const glm::dvec2& p) {
    double nearest = 1e300;
    for (const auto& q : line) nearest = std::min(nearest, glm::distance(p, q));
    return nearest;
}

// The drop between the legs of a turn, as near to it as its own width lets it lie.
std::optional<Eye> drop_in(const Turn& turn, const std::vector<glm::dvec2>& line, bool closed,
                           double across_mm) {
    const std::size_t n = line.size();
    const auto legs = static_cast<std::size_t>(kLegs / kStep);
    const std::size_t tip = turn.at % n;
    if (n < 2 * legs || (!closed && (tip < legs || tip + legs >= n))) return std::nullopt;
    const glm::dvec2 between = (line[(tip + n - legs) % n] + line[(tip + legs) % n]) / 2.0 - turn.tip;
    if (!(glm::length(between) > 0)) return std::nullopt;
    const glm::dvec2 in = glm::normalize(between);
    const double radius = kDrop * across_mm, beside = across_mm / 2;
    for (double by = radius + beside; by < kFarthest * across_mm; by += 0.05 * across_mm) {
        const glm::dvec2 middle = turn.tip + by * in;
        if (distance_to(line, middle) >= radius + beside) return Eye{middle, radius, {-in.y, in.x}, true};
    }
    return std::nullopt;
}

std::optional<Eye> eye_of(const Row& row, double across_mm) {
    auto line = resampled(row, kStep * across_mm);
    if (row.closed && line.size() > 1) line.pop_back();
    if (const auto turn = tightest_turn(line, row.closed, kTurns_rad, across_mm)) {
        const double radius =
            turn->radius_mm + (turn->radius_mm < kFilled * across_mm ? 0.5 : -0.5) * across_mm;
        return Eye{turn->tip + turn->radius_mm * turn->in, radius, {-turn->in.y, turn->in.x}};
    }
    const auto turn = tightest_turn(line, row.closed, kOpens_rad, across_mm);
    return turn ? drop_in(*turn, line, row.closed, across_mm) : std::nullopt;
}

// Whether a row runs on through a drop, rather than ending there.
bool run_through(const Eye& eye, const std::vector<Row>& rows, double across_mm) {
    return std::any_of(rows.begin(), rows.end(), [&](const Row& row) {
        const auto& line = row.line_mm;
        if (line.empty() || distance_to(line, eye.middle_mm) > eye.radius_mm) return false;
        const double to_end =
            std::min(glm::distance(line.front(), eye.middle_mm), glm::distance(line.back(), eye.middle_mm));
        return row.closed || to_end > eye.radius_mm + 2 * across_mm;
    });
}

}  // namespace

std::vector<Eye> eyes_of(const std::vector<Row>& rows, const Region& ground, double across_mm) {
    std::vector<Eye> turned, eyes;
    for (const Row& row : rows)
        if (const auto eye = eye_of(row, across_mm))
            if (!eye->drop || !run_through(*eye, rows, across_mm)) turned.push_back(*eye);
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

bool within(std::span<const Eye> eyes, const glm::dvec2& p, double beside_mm) {
    return std::any_of(eyes.begin(), eyes.end(), [&](const Eye& eye) {
        return glm::distance(p, eye.middle_mm) < eye.radius_mm + beside_mm;
    });
}

Seed seed_of(const Eye& drop, double across_mm) {
    const glm::dvec2 out = kPoint * across_mm * glm::dvec2(-drop.along.y, drop.along.x);
    return {{drop.middle_mm + out, drop.middle_mm + out / 2.0, drop.middle_mm}, drop.along};
}

Ring drop_from(const Ring& cell, double drawn_in_mm, double across_mm) {
    const double round = kRounded * across_mm;
    const Region drop = grow(grow({{cell}}, -drawn_in_mm - round), round, Corner::round);
    return drop.rings.size() == 1 ? drop.rings[0] : Ring{};
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
