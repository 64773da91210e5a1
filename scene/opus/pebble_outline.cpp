#include "scene/opus/pebble_outline.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "scene/opus/row.h"

namespace rakelight {

namespace {

constexpr std::size_t kPoints = 44;

double cross(const glm::dvec2& a, const glm::dvec2& b) {
    return a.x * b.y - a.y * b.x;
}

// How far from `from` the ring is met along `ray`, in lengths of `ray`.
double reach(const Ring& cell, const glm::dvec2& from, const glm::dvec2& ray) {
    double least = 1e9;
    for (std::size_t i = 0; i < cell.size(); ++i) {
        const glm::dvec2 side = cell[(i + 1) % cell.size()] - cell[i];
        const double rate = cross(ray, side);
        if (std::abs(rate) < 1e-12) continue;
        const double t = cross(cell[i] - from, side) / rate, u = cross(cell[i] - from, ray) / rate;
        if (t > 0 && u >= 0 && u <= 1) least = std::min(least, t);
    }
    return least;
}

}  // namespace

Ring pebble_outline(const Ring& cell, double wear) {
    double around = 0;
    for (std::size_t i = 0; i < cell.size(); ++i)
        around += glm::distance(cell[i], cell[(i + 1) % cell.size()]);
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
