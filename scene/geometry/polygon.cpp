#include "scene/geometry/polygon.h"

#include <algorithm>
#include <cmath>

namespace rakelight {

namespace {

void keep_far_points(const Ring& ring, std::size_t first, std::size_t last, double tolerance_mm,
                     std::vector<char>& keep) {
    const std::size_t n = ring.size();
    double far = tolerance_mm;
    std::size_t farthest = 0;
    for (std::size_t i = first + 1; i < last; ++i) {
        const double d = distance_mm(ring[i % n], ring[first % n], ring[last % n]);
        if (d > far) {
            far = d;
            farthest = i;
        }
    }
    if (!farthest) return;
    keep[farthest % n] = 1;
    keep_far_points(ring, first, farthest, tolerance_mm, keep);
    keep_far_points(ring, farthest, last, tolerance_mm, keep);
}

}  // namespace

double area_mm2(std::span<const glm::dvec2> ring) {
    double twice = 0;
    for (const auto& [a, b] : edges(ring)) twice += cross(a - ring[0], b - ring[0]);
    return twice / 2;
}

double perimeter_mm(std::span<const glm::dvec2> ring) {
    double sum = 0;
    for (const auto& [a, b] : edges(ring)) sum += glm::distance(a, b);
    return sum;
}

double mean_half_width_mm(std::span<const glm::dvec2> ring) {
    return 2 * area_mm2(ring) / perimeter_mm(ring);
}

double farthest_mm(std::span<const glm::dvec2> ring, const glm::dvec2& from) {
    double farthest = 0;
    for (const auto& p : ring) farthest = std::max(farthest, glm::distance(p, from));
    return farthest;
}

glm::dvec2 centroid(const Ring& ring) {
    glm::dvec2 moment{0};
    double twice = 0;
    for (std::size_t i = 1; i + 1 < ring.size(); ++i) {
        const glm::dvec2 a = ring[i] - ring[0];
        const glm::dvec2 b = ring[i + 1] - ring[0];
        const double c = cross(a, b);
        twice += c;
        moment += c * (a + b);
    }
    if (std::abs(twice) < 1e-12) return ring.empty() ? glm::dvec2{0} : ring[0];
    return ring[0] + moment / (3 * twice);
}

Box bounds(const Ring& ring) {
    Box box;
    for (const auto& p : ring) box.add(p);
    return box;
}

bool contains(const Ring& ring, const glm::dvec2& p) {
    bool inside = false;
    for (const auto& [b, a] : edges(ring))
        if ((a.y > p.y) != (b.y > p.y) && p.x < (b.x - a.x) * (p.y - a.y) / (b.y - a.y) + a.x)
            inside = !inside;
    return inside;
}

double distance_mm(const glm::dvec2& p, const glm::dvec2& a, const glm::dvec2& b) {
    const glm::dvec2 side = b - a;
    const double length2 = glm::dot(side, side);
    const double t = length2 > 0 ? std::clamp(glm::dot(p - a, side) / length2, 0.0, 1.0) : 0.0;
    return glm::length(p - a - t * side);
}

Ring convex_hull(std::vector<glm::dvec2> points) {
    const auto before = [](const glm::dvec2& a, const glm::dvec2& b) {
        return a.x < b.x || (a.x == b.x && a.y < b.y);
    };
    std::sort(points.begin(), points.end(), before);
    points.erase(std::unique(points.begin(), points.end()), points.end());
    if (points.size() < 3) return points;
    Ring hull;
    const auto sweep = [&](auto first, auto last) {
        const std::size_t start = hull.size();
        for (auto it = first; it != last; ++it) {
            while (hull.size() >= start + 2 &&
                   cross(hull.back() - hull[hull.size() - 2], *it - hull.back()) <= 0)
                hull.pop_back();
            hull.push_back(*it);
        }
        hull.pop_back();
    };
    sweep(points.begin(), points.end());
    sweep(points.rbegin(), points.rend());
    return hull;
}

Ring cut_by_line(const Ring& ring, const glm::dvec2& normal, double limit) {
    Ring out;
    for (const auto& [a, b] : edges(ring)) {
        const double da = glm::dot(a, normal) - limit;
        const double db = glm::dot(b, normal) - limit;
        if (da <= 0) out.push_back(a);
        if ((da < 0 && db > 0) || (da > 0 && db < 0)) out.push_back(glm::mix(a, b, da / (da - db)));
    }
    return out;
}

std::optional<glm::dvec2> star_centre(const Ring& ring) {
    const glm::dvec2 heart = centroid(ring);
    const auto sees_all = [&](const glm::dvec2& p) {
        for (const auto& [a, b] : edges(ring))
            if (cross(a - p, b - p) <= 0) return false;
        return true;
    };
    if (sees_all(heart)) return heart;
    const Box box = bounds(ring);  // the kernel is where all edges, prolonged, leave room
    Ring kernel{box.low, {box.high.x, box.low.y}, box.high, {box.low.x, box.high.y}};
    for (const auto& [a, b] : edges(ring)) {
        const glm::dvec2 out(b.y - a.y, a.x - b.x);
        kernel = cut_by_line(kernel, out, glm::dot(a, out));
    }
    if (kernel.size() < 3 || area_mm2(kernel) < 1e-6) return std::nullopt;
    const glm::dvec2 centre = centroid(kernel);
    if (!sees_all(centre)) return std::nullopt;
    return centre;
}

Ring simplified(const Ring& ring, double tolerance_mm) {
    const std::size_t n = ring.size();
    if (n < 4) return ring;
    // Start from two points that surely stay: the one farthest from the centroid, and the one farthest from
    // that.
    const auto farthest_from = [&](const glm::dvec2& c) {
        std::size_t best = 0;
        for (std::size_t i = 1; i < n; ++i)
            if (glm::distance(ring[i], c) > glm::distance(ring[best], c)) best = i;
        return best;
    };
    const std::size_t a = farthest_from(centroid(ring));
    const std::size_t b = farthest_from(ring[a]);
    std::vector<char> keep(n, 0);
    keep[a] = keep[b] = 1;
    keep_far_points(ring, std::min(a, b), std::max(a, b), tolerance_mm, keep);
    keep_far_points(ring, std::max(a, b), std::min(a, b) + n, tolerance_mm, keep);
    Ring out;
    for (std::size_t i = 0; i < n; ++i)
        if (keep[i]) out.push_back(ring[i]);
    return out;
}

}  // namespace rakelight
