#include "scene/edge_index.h"

#include <algorithm>
#include <cmath>

namespace rakelight {

EdgeIndex::EdgeIndex(const Region& region, double reach_mm) : region_(region), reach_mm_(reach_mm) {
    const Box box = bounds(region);
    if (region.empty()) return;
    low_ = box.low - 2 * reach_mm;
    const glm::dvec2 size = box.high + 2 * reach_mm - low_;
    columns_ = static_cast<int>(size.x / reach_mm) + 1;
    rows_ = static_cast<int>(size.y / reach_mm) + 1;
    buckets_.resize(static_cast<std::size_t>(columns_) * static_cast<std::size_t>(rows_));
    for (const auto& ring : region.rings)
        for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++) {
            const auto edge = static_cast<std::uint32_t>(edges_.size());
            edges_.push_back({ring[j], ring[i]});
            // Every bucket within reach of the edge, found by stepping along it.
            const double length = glm::distance(ring[i], ring[j]);
            const int steps = static_cast<int>(length / (0.5 * reach_mm)) + 1;
            for (int s = 0; s <= steps; ++s) {
                const glm::dvec2 p =
                    (glm::mix(ring[j], ring[i], static_cast<double>(s) / steps) - low_) / reach_mm;
                for (int y = static_cast<int>(p.y) - 1; y <= static_cast<int>(p.y) + 1; ++y)
                    for (int x = static_cast<int>(p.x) - 1; x <= static_cast<int>(p.x) + 1; ++x) {
                        if (x < 0 || y < 0 || x >= columns_ || y >= rows_) continue;
                        auto& bucket =
                            buckets_[static_cast<std::size_t>(y) * static_cast<std::size_t>(columns_) +
                                     static_cast<std::size_t>(x)];
                        if (bucket.empty() || bucket.back() != edge) bucket.push_back(edge);
                    }
            }
        }
}

double EdgeIndex::distance_mm(const glm::dvec2& p) const {
    const glm::dvec2 q = (p - low_) / reach_mm_;
    if (q.x < 0 || q.y < 0 || q.x >= columns_ || q.y >= rows_) return reach_mm_;
    double nearest = reach_mm_;
    const auto bucket =
        static_cast<std::size_t>(q.y) * static_cast<std::size_t>(columns_) + static_cast<std::size_t>(q.x);
    for (const auto e : buckets_[bucket])
        nearest = std::min(nearest, rakelight::distance_mm(p, edges_[e].a, edges_[e].b));
    return nearest;
}

double EdgeIndex::inside_mm(const glm::dvec2& p) const {
    const double d = distance_mm(p);
    return contains(region_, p) ? d : -d;
}

}  // namespace rakelight
