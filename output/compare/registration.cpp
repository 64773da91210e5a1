#include "output/compare/registration.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace rakelight {
namespace {

constexpr std::size_t kUnknowns = 10;  // eight of the homography, gain and offset
constexpr int kFinest_px = 1600, kCoarsest_px = 60;
constexpr double kSmooth_px = 1.2, kEven_px = 12;
constexpr int kMostSteps = 30;

using Row = std::array<double, kUnknowns>;

// Solves a x = b by elimination with pivots; false when it cannot.
bool solve(std::array<Row, kUnknowns>& a, Row& b) {
    for (std::size_t k = 0; k < kUnknowns; ++k) {
        std::size_t pivot = k;
        for (std::size_t i = k + 1; i < kUnknowns; ++i)
            if (std::abs(a[i][k]) > std::abs(a[pivot][k])) pivot = i;
        if (!(std::abs(a[pivot][k]) > 1e-12)) return false;
        std::swap(a[k], a[pivot]);
        std::swap(b[k], b[pivot]);
        for (std::size_t i = k + 1; i < kUnknowns; ++i) {
            const double f = a[i][k] / a[k][k];
            for (std::size_t j = k; j < kUnknowns; ++j) a[i][j] -= f * a[k][j];
            b[i] -= f * b[k];
        }
    }
    for (std::size_t k = kUnknowns; k-- > 0;) {
        for (std::size_t j = k + 1; j < kUnknowns; ++j) b[k] -= a[k][j] * b[j];
        b[k] /= a[k][k];
    }
    return true;
}

// The logarithm, less its own slow course.
Plane edges_of(const Plane& luminance, const Plane& weight) {
    double sum = 0, weights = 1e-9;
    for (std::size_t i = 0; i < luminance.v.size(); ++i) {
        sum += luminance.v[i] * weight.v[i];
        weights += weight.v[i];
    }
    const auto floor = static_cast<float>(0.02 * sum / weights + 1e-12);
    Plane logs = luminance;
    for (float& v : logs.v) v = std::log(std::max(v, 0.f) + floor);
    const Plane smooth = blurred(logs, weight, kSmooth_px), slow = blurred(logs, weight, kEven_px);
    for (std::size_t i = 0; i < logs.v.size(); ++i) logs.v[i] = smooth.v[i] - slow.v[i];
    return logs;
}

struct Level {
    Plane edges, weight;
    int factor = 1;
    glm::dvec2 middle{};
    double half = 1;  // of the larger side, in pixels of the picture: makes unknowns of like size

    glm::dvec2 in_picture(int x, int y) const {
        return glm::dvec2(x + 0.5, y + 0.5) * static_cast<double>(factor);
    }
};

Level level_of(const Plane& picture, const Plane& weight, int factor) {
    Level l;
    l.factor = factor;
    l.weight = reduced_weight(weight, factor);
    l.edges = edges_of(reduced(picture, weight, factor), l.weight);
    l.middle = glm::dvec2(picture.width, picture.height) / 2.0;
    l.half = std::max(l.middle.x, l.middle.y);
    return l;
}

// The photograph as the picture would show it, and the weight of what lies within both.
std::pair<Plane, Plane> warped(const Level& l, const Plane& photo, const glm::dmat3& h) {
    Plane value(l.edges.width, l.edges.height), weight = l.weight;
    const glm::dvec2 a = projected(h, l.middle), b = projected(h, l.middle + glm::dvec2(l.factor));
    const int fine = std::clamp(static_cast<int>(std::ceil(glm::length(b - a) / 1.5)), 1, 6);
    for (int y = 0; y < value.height; ++y)
        for (int x = 0; x < value.width; ++x) {
            const std::size_t at = value.at(x, y);
            if (!(weight.v[at] > 0)) continue;
            float sum = 0;
            for (int j = 0; j < fine; ++j)
                for (int i = 0; i < fine; ++i) {
                    const glm::dvec2 within{(i + 0.5) / fine - 0.5, (j + 0.5) / fine - 0.5};
                    const glm::dvec2 p =
                        projected(h, l.in_picture(x, y) + within * static_cast<double>(l.factor));
                    if (p.x < 0 || p.y < 0 || p.x > photo.width || p.y > photo.height) weight.v[at] = 0;
                    sum += sampled(photo, p.x, p.y);
                }
            value.v[at] = sum / static_cast<float>(fine * fine);
        }
    return {std::move(value), std::move(weight)};
}

struct Seen {
    Plane edges, weight;
};
Seen seen_through(const Level& l, const Plane& photo, const glm::dmat3& h) {
    auto [value, weight] = warped(l, photo, h);
    return {edges_of(value, weight), std::move(weight)};
}

double correlation(const Level& l, const Seen& s) {
    double n = 1e-9, a = 0, b = 0, aa = 0, bb = 0, ab = 0;
    for (std::size_t i = 0; i < s.edges.v.size(); ++i) {
        const double w = s.weight.v[i], x = l.edges.v[i], y = s.edges.v[i];
        n += w, a += w * x, b += w * y, aa += w * x * x, bb += w * y * y, ab += w * x * y;
    }
    const double both = (aa - a * a / n) * (bb - b * b / n);
    return both > 0 ? (ab - a * b / n) / std::sqrt(both) : 0;
}

// One step of Gauss and Newton: the homography of the picture onto itself that brings the photograph nearer.
bool step(const Level& l, const Seen& s, glm::dmat3& by) {
    std::array<Row, kUnknowns> normal{};
    Row right{};
    for (int y = 1; y + 1 < s.edges.height; ++y)
        for (int x = 1; x + 1 < s.edges.width; ++x) {
            const std::size_t at = s.edges.at(x, y);
            const double w = std::min({s.weight.v[at], s.weight.v[at - 1], s.weight.v[at + 1],
                                       s.weight.v[s.edges.at(x, y - 1)], s.weight.v[s.edges.at(x, y + 1)]});
            if (!(w > 0)) continue;
            const double per = l.half / (2.0 * l.factor);
            const double gx = per * (s.edges.v[at + 1] - s.edges.v[at - 1]);
            const double gy = per * (s.edges.v[s.edges.at(x, y + 1)] - s.edges.v[s.edges.at(x, y - 1)]);
            const glm::dvec2 u = (l.in_picture(x, y) - l.middle) / l.half;
            const double along = gx * u.x + gy * u.y;
            const Row row{gx * u.x, gx * u.y,     gx,           gy * u.x,      gy * u.y,
                          gy,       -along * u.x, -along * u.y, s.edges.v[at], 1};
            for (std::size_t i = 0; i < kUnknowns; ++i) {
                for (std::size_t j = 0; j < kUnknowns; ++j) normal[i][j] += w * row[i] * row[j];
                right[i] += w * row[i] * l.edges.v[at];
            }
        }
    if (!solve(normal, right) || !(std::abs(right[8]) > 1e-6)) return false;
    const auto p = [&](std::size_t i) { return std::clamp(right[i] / right[8], -0.1, 0.1); };
    const glm::dmat3 change{glm::dvec3(1 + p(0), p(3), p(6)), glm::dvec3(p(1), 1 + p(4), p(7)),
                            glm::dvec3(p(2), p(5), 1)};
    const glm::dmat3 unit{glm::dvec3(1 / l.half, 0, 0), glm::dvec3(0, 1 / l.half, 0),
                          glm::dvec3(-l.middle / l.half, 1)};
    by = glm::inverse(unit) * change * unit;
    return true;
}

double moved_px(const glm::dmat3& by, const Level& l) {
    double most = 0;
    for (const double x : {0.0, 2.0})
        for (const double y : {0.0, 2.0}) {
            const glm::dvec2 at = l.middle * glm::dvec2(x, y);
            most = std::max(most, glm::length(projected(by, at) - at));
        }
    return most;
}

glm::dmat3 best_at(const Level& l, const Plane& photo, glm::dmat3 h) {
    Seen here = seen_through(l, photo, h);
    double alike = correlation(l, here);
    for (int i = 0; i < kMostSteps; ++i) {
        glm::dmat3 by;
        if (!step(l, here, by)) return h;
        const glm::dmat3 next = h * by;
        Seen there = seen_through(l, photo, next);
        const double c = correlation(l, there);
        if (!(c > alike)) return h;
        h = next / next[2][2];
        here = std::move(there);
        alike = c;
        if (moved_px(by, l) < 0.01) return h;
    }
    return h;
}

}  // namespace

Registered registered(const Plane& picture, const Plane& weight, const Plane& photo,
                      const glm::dmat3& given) {
    Registered r;
    r.to_photo = given;
    int factor = 1;
    while (std::min(picture.width, picture.height) / (2 * factor) >= kCoarsest_px) factor *= 2;
    for (; factor >= 1; factor /= 2) {
        if (std::max(picture.width, picture.height) / factor > kFinest_px) break;
        const Level l = level_of(picture, weight, factor);
        r.to_photo = best_at(l, photo, r.to_photo);
        r.alike = correlation(l, seen_through(l, photo, r.to_photo));
        r.alike_as_given = correlation(l, seen_through(l, photo, given));
    }
    return r;
}

}  // namespace rakelight
