#include "scene/opus/pebble_outline.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "scene/flow/row.h"

namespace rakelight {

namespace {

constexpr std::size_t kPoints = 44;

// How far from `from` the ring is met along `ray`, in lengths of `ray`.
double reach(const Ring& cell, const glm::dvec2& from, const glm::dvec2& ray) {
    double least = 1e9;
    for (const auto& [a, b] : edges(cell)) {
        const glm::dvec2 side = b - a;
        const double rate = cross(ray, side);
        if (std::abs(rate) < 1e-12) continue;
        const double t = cross(a - from, side) / rate, u = cross(a - from, ray) / rate;
        if (t > 0 && u >= 0 && u <= 1) least = std::min(least, t);
    }
    return least;
}

}  // namespace

Ring pebble_outline(const Ring& cell, double wear) {
    const double around = perimeter_mm(cell);
    Ring even = resampled({cell, true}, around / kPoints);
    even.pop_back();  // the first point again
    const std::size_t n = even.size();
    wear *= 4 * std::sqrt(area_mm2(cell)) / around;  // by the stone's width more than by its length
    std::vector<double> weight(n);
    double sum = 0;
    for (std::size_t k = 0; k < n; ++k) {
        const double away = static_cast<double>(std::min(k, n - k)) / static_cast<double>(n) / wear;
        sum += weight[k] = std::exp(-0.5 * away * away);
    }
    Ring worn(n, glm::dvec2(0));
    for (std::size_t i = 0; i < n; ++i)
        for (std::size_t k = 0; k < n; ++k) worn[i] += weight[k] / sum * even[(i + k) % n];
    const glm::dvec2 heart = centroid(worn);
    if (!contains(cell, heart)) return {};
    double scale = 1e9;
    for (const auto& p : worn) scale = std::min(scale, reach(cell, heart, p - heart));
    // A corner of the cell that points inward may lie between two of the points.
    for (const auto& corner : cell)
        if (const double far = reach(worn, heart, corner - heart); far < 1e8)
            scale = std::min(scale, 1 / far);
    for (auto& p : worn) p = heart + scale * (p - heart);
    return worn;
}

}  // namespace rakelight
