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

using Channels = std::array<Plane, 3>;

// How strong edges are, whichever side is the darker and in whatever channel: a piece that has another colour
// keeps its outline. Strengths are relative to those around.
Plane edges_of(const Channels& channels, const Plane& weight) {
    Plane edges(weight.width, weight.height);
    for (const Plane& c : channels) {
        double sum = 0, weights = 1e-9;
        for (std::size_t i = 0; i < c.v.size(); ++i) {
            sum += std::max(c.v[i], 0.f) * weight.v[i];
            weights += weight.v[i];
        }
        const auto floor = static_cast<float>(0.05 * sum / weights + 1e-12);
        Plane logs = c;
        for (float& v : logs.v) v = std::log(std::max(v, 0.f) + floor);
        logs = blurred(logs, weight, kSmooth_px);
        for (int y = 1; y + 1 < c.height; ++y)
            for (int x = 1; x + 1 < c.width; ++x) {
                const std::size_t at = c.at(x, y), above = c.at(x, y - 1), below = c.at(x, y + 1);
                if (!(std::min({weight.v[at - 1], weight.v[at + 1], weight.v[above], weight.v[below]}) > 0))
                    continue;
                const float gx = logs.v[at + 1] - logs.v[at - 1], gy = logs.v[below] - logs.v[above];
                edges.v[at] += gx * gx + gy * gy;
            }
    }
    double mean = 0, weights = 1e-9;
    for (std::size_t i = 0; i < edges.v.size(); ++i) {
        edges.v[i] = std::sqrt(edges.v[i]);
        mean += edges.v[i] * weight.v[i];
        weights += weight.v[i];
    }
    const Plane around = blurred(edges, weight, kEven_px);
    const auto least = static_cast<float>(0.3 * mean / weights + 1e-9);
    for (std::size_t i = 0; i < edges.v.size(); ++i) edges.v[i] /= around.v[i] + least;
    return blurred(edges, weight, kSmooth_px / 2);
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

Level level_of(const std::vector<glm::vec3>& picture, const Plane& weight, int factor) {
    Level l;
    l.factor = factor;
    l.weight = reduced_weight(weight, factor);
    Channels channels;
    for (int k = 0; k < 3; ++k) {
        Plane whole(weight.width, weight.height);
        for (std::size_t i = 0; i < picture.size(); ++i) whole.v[i] = picture[i][k];
        channels[static_cast<std::size_t>(k)] = reduced(whole, weight, factor);
    }
    l.edges = edges_of(channels, l.weight);
    l.middle = glm::dvec2(weight.width, weight.height) / 2.0;
    l.half = std::max(l.middle.x, l.middle.y);
    return l;
}

glm::vec3 sampled_rgb(const PanelPhotograph& photo, double x, double y) {
    x = std::clamp(x - 0.5, 0.0, photo.width - 1.001);
    y = std::clamp(y - 0.5, 0.0, photo.height - 1.001);
    const int left = static_cast<int>(x), top = static_cast<int>(y);
    const auto u = static_cast<float>(x - left), w = static_cast<float>(y - top);
    const std::size_t a = photo.spoilt.at(left, top), c = photo.spoilt.at(left, top + 1);
    return (photo.rgb[a] * (1 - u) + photo.rgb[a + 1] * u) * (1 - w) +
           (photo.rgb[c] * (1 - u) + photo.rgb[c + 1] * u) * w;
}

struct Seen {
    Plane edges, weight;
};

// The photograph as the picture would show it, with the weight of what lies within both.
Seen seen_through(const Level& l, const PanelPhotograph& photo, const glm::dmat3& h) {
    Channels value;
    for (Plane& v : value) v = Plane(l.edges.width, l.edges.height);
    Plane weight = l.weight;
    const glm::dvec2 a = projected(h, l.middle), b = projected(h, l.middle + glm::dvec2(l.factor));
    const int fine = std::clamp(static_cast<int>(std::ceil(glm::length(b - a) / 1.5)), 1, 6);
    for (int y = 0; y < weight.height; ++y)
        for (int x = 0; x < weight.width; ++x) {
            const std::size_t at = weight.at(x, y);
            if (!(weight.v[at] > 0)) continue;
            glm::vec3 sum(0);
            for (int j = 0; j < fine; ++j)
                for (int i = 0; i < fine; ++i) {
                    const glm::dvec2 within{(i + 0.5) / fine - 0.5, (j + 0.5) / fine - 0.5};
                    const glm::dvec2 p =
                        projected(h, l.in_picture(x, y) + within * static_cast<double>(l.factor));
                    if (p.x < 0 || p.y < 0 || p.x > photo.width || p.y > photo.height) weight.v[at] = 0;
                    sum += sampled_rgb(photo, p.x, p.y);
                }
            for (std::size_t k = 0; k < 3; ++k)
                value[k].v[at] = sum[static_cast<int>(k)] / static_cast<float>(fine * fine);
        }
    Plane edges = edges_of(value, weight);
    return {std::move(edges), std::move(weight)};
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

glm::dmat3 best_at(const Level& l, const PanelPhotograph& photo, glm::dmat3 h) {
    Seen here = seen_through(l, photo, h);
    double alike = correlation(l, here);
    for (int i = 0; i < kMostSteps; ++i) {
        glm::dmat3 by;
        if (!step(l, here, by)) return h;
        glm::dmat3 next = h * by;
        Seen there = seen_through(l, photo, next);
        double c = correlation(l, there);
        for (int k = 0; k < 3 && !(c > alike); ++k) {  // too far: half the way
            by = 0.5 * (by + glm::dmat3(1));
            next = h * by;
            there = seen_through(l, photo, next);
            c = correlation(l, there);
        }
        if (!(c > alike)) return h;
        h = next / next[2][2];
        here = std::move(there);
        alike = c;
        if (moved_px(by, l) < 0.01) return h;
    }
    return h;
}

}  // namespace

Registered registered(const std::vector<glm::vec3>& picture, const Plane& weight,
                      const PanelPhotograph& photo, const glm::dmat3& given) {
    Registered r;
    r.to_photo = given;
    int factor = 1;
    while (std::min(weight.width, weight.height) / (2 * factor) >= kCoarsest_px) factor *= 2;
    for (; factor >= 1; factor /= 2) {
        if (std::max(weight.width, weight.height) / factor > kFinest_px) break;
        const Level l = level_of(picture, weight, factor);
        r.to_photo = best_at(l, photo, r.to_photo);
        r.alike = correlation(l, seen_through(l, photo, r.to_photo));
        r.alike_as_given = correlation(l, seen_through(l, photo, given));
    }
    return r;
}

}  // namespace rakelight
