#include "scene/geometry/stroke.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

#include "scene/geometry/polygon.h"

namespace rakelight {
namespace {

using glm::dvec2;

constexpr double kSamePoint_mm = 1e-6;
constexpr int kMostParts = 1024;

bool same(dvec2 a, dvec2 b) {
    return glm::distance(a, b) <= kSamePoint_mm;
}

std::vector<dvec2> without_repeats(const Stroke& stroke) {
    std::vector<dvec2> points;
    for (const dvec2 p : stroke.points_mm)
        if (points.empty() || !same(points.back(), p)) points.push_back(p);
    while (stroke.closed && points.size() > 1 && same(points.front(), points.back())) points.pop_back();
    return points;
}

/// Velocity at `b` of the curve through a, b, c whose knots are the square roots of the distances apart.
dvec2 velocity(dvec2 a, dvec2 b, dvec2 c) {
    const double ab = std::sqrt(glm::distance(a, b)), bc = std::sqrt(glm::distance(b, c));
    return (b - a) / ab - (c - a) / (ab + bc) + (c - b) / bc;
}

/// Appends the curve from b to c, without c; a and d are the points before and after.
void append_curve(std::vector<dvec2>& chain, dvec2 a, dvec2 b, dvec2 c, dvec2 d, double tolerance_mm) {
    const double third = std::sqrt(glm::distance(b, c)) / 3;
    const dvec2 b1 = b + third * velocity(a, b, c), c1 = c - third * velocity(b, c, d);
    const double bend = std::max(glm::length(b - 2.0 * b1 + c1), glm::length(b1 - 2.0 * c1 + c));
    const int parts =
        static_cast<int>(std::clamp(std::ceil(std::sqrt(0.75 * bend / tolerance_mm)), 1.0, 1.0 * kMostParts));
    chain.push_back(b);
    for (int i = 1; i < parts; ++i) {
        const double t = static_cast<double>(i) / parts, s = 1 - t;
        chain.push_back(s * s * s * b + 3 * s * s * t * b1 + 3 * s * t * t * c1 + t * t * t * c);
    }
}

/// Where segments ab and cd meet, or none; parallel segments meet where they overlap.
std::optional<dvec2> meeting(dvec2 a, dvec2 b, dvec2 c, dvec2 d) {
    const dvec2 ab = b - a, cd = d - c, ac = c - a;
    const double det = cross(ab, cd), scale = glm::length(ab) * glm::length(cd);
    if (std::abs(det) > 1e-12 * scale) {
        const double t = cross(ac, cd) / det, u = cross(ac, ab) / det;
        if (t < 0 || t > 1 || u < 0 || u > 1) return std::nullopt;
        return a + t * ab;
    }
    if (std::abs(cross(ac, ab)) > kSamePoint_mm * glm::length(ab)) return std::nullopt;
    const double from = glm::dot(ac, ab), to = glm::dot(d - a, ab), whole = glm::dot(ab, ab);
    const double first = std::max(0.0, std::min(from, to)), last = std::min(whole, std::max(from, to));
    if (first > last) return std::nullopt;
    return a + first / whole * ab;
}

/// Do the neighbours ab and bc run back over each other?
bool folds_back(dvec2 a, dvec2 b, dvec2 c) {
    const dvec2 back = a - b, on = c - b;
    return glm::dot(back, on) > 0 && std::abs(cross(back, on)) <= 1e-12 * glm::length(back) * glm::length(on);
}

}  // namespace

std::vector<dvec2> flatten(const Stroke& stroke, double tolerance_mm) {
    const std::vector<dvec2> points = without_repeats(stroke);
    const size_t n = points.size();
    if (!stroke.smooth || n < 3) return points;

    const size_t segments = stroke.closed ? n : n - 1;
    // An open curve ends as if its last segment were mirrored in the end point.
    const auto at = [&](std::ptrdiff_t i) {
        const auto last = static_cast<std::ptrdiff_t>(n) - 1;
        if (stroke.closed) return points[static_cast<size_t>((i + last + 1) % (last + 1))];
        if (i < 0) return 2.0 * points[0] - points[1];
        if (i > last) return 2.0 * points[n - 1] - points[n - 2];
        return points[static_cast<size_t>(i)];
    };
    std::vector<dvec2> chain;
    for (size_t s = 0; s < segments; ++s) {
        const auto i = static_cast<std::ptrdiff_t>(s);
        append_curve(chain, at(i - 1), at(i), at(i + 1), at(i + 2), tolerance_mm);
    }
    if (!stroke.closed) chain.push_back(points.back());
    return chain;
}

std::optional<dvec2> self_crossing_mm(std::span<const dvec2> closed_mm) {
    const size_t n = closed_mm.size();
    if (n < 3) return std::nullopt;
    struct Segment {
        dvec2 a, b;
        double left, right, low, high;
        size_t index;
    };
    std::vector<Segment> segments(n);
    for (size_t i = 0; i < n; ++i) {
        const dvec2 a = closed_mm[i], b = closed_mm[(i + 1) % n];
        if (folds_back(a, b, closed_mm[(i + 2) % n])) return b;
        segments[i] = {a, b, std::min(a.x, b.x), std::max(a.x, b.x), std::min(a.y, b.y), std::max(a.y, b.y),
                       i};
    }
    std::sort(segments.begin(), segments.end(), [](const Segment& s, const Segment& t) {
        return s.left != t.left ? s.left < t.left : s.index < t.index;
    });
    for (size_t i = 0; i < n; ++i) {
        const Segment& s = segments[i];
        for (size_t j = i + 1; j < n && segments[j].left <= s.right; ++j) {
            const Segment& t = segments[j];
            if (t.low > s.high || t.high < s.low) continue;
            const size_t apart = s.index > t.index ? s.index - t.index : t.index - s.index;
            if (apart == 1 || apart == n - 1) continue;
            if (const auto place = meeting(s.a, s.b, t.a, t.b)) return place;
        }
    }
    return std::nullopt;
}

}  // namespace rakelight
