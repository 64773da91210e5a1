#include "scene/geometry/edge_index.h"

#include <algorithm>
#include <cmath>

namespace rakelight {

namespace {

// Buckets beyond the box, in reaches: no round share, lest the middles of a whole line of buckets lie on an
// edge of the box, where rounding alone says whether they are inside. Rows of a field are a round share.
constexpr glm::dvec2 kBeyond{2.0347, 2.0613};

}  // namespace

EdgeIndex::EdgeIndex(const Region& region, double reach_mm) : reach_mm_(reach_mm) {
    const Box box = bounds(region);
    if (region.empty()) return;
    low_ = box.low - kBeyond * reach_mm;
    const glm::dvec2 size = box.high + 2 * reach_mm - low_;
    columns_ = static_cast<int>(size.x / reach_mm) + 1;
    rows_ = static_cast<int>(size.y / reach_mm) + 1;
    buckets_.resize(static_cast<std::size_t>(columns_) * static_cast<std::size_t>(rows_));
    for (const auto& ring : region.rings)
        for (const auto& [a, b] : edges(ring)) {
            const auto edge = static_cast<std::uint32_t>(edges_.size());
            edges_.push_back({a, b});
            // Every bucket within reach of the edge, found by stepping along it.
            const double length = glm::distance(a, b);
            const int steps = static_cast<int>(length / (0.5 * reach_mm)) + 1;
            for (int s = 0; s <= steps; ++s) {
                const glm::dvec2 p = (glm::mix(a, b, static_cast<double>(s) / steps) - low_) / reach_mm;
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
    find_middles();
}

// Which buckets have their middle inside: each row of buckets is crossed once from left to right.
void EdgeIndex::find_middles() {
    std::vector<std::vector<double>> crossings(static_cast<std::size_t>(rows_));
    for (const auto& e : edges_) {
        const double low = (std::min(e.a.y, e.b.y) - low_.y) / reach_mm_ - 0.5;
        const double high = (std::max(e.a.y, e.b.y) - low_.y) / reach_mm_ - 0.5;
        for (int y = std::max(0, static_cast<int>(std::floor(low))); y <= high + 1 && y < rows_; ++y) {
            const double middle = low_.y + (y + 0.5) * reach_mm_;
            if ((e.a.y > middle) != (e.b.y > middle))
                crossings[static_cast<std::size_t>(y)].push_back(
                    (e.b.x - e.a.x) * (middle - e.a.y) / (e.b.y - e.a.y) + e.a.x);
        }
    }
    inside_.assign(buckets_.size(), 0);
    for (int y = 0; y < rows_; ++y) {
        auto& row = crossings[static_cast<std::size_t>(y)];
        std::sort(row.begin(), row.end());
        std::size_t passed = 0;
        for (int x = 0; x < columns_; ++x) {
            while (passed < row.size() && row[passed] < low_.x + (x + 0.5) * reach_mm_) ++passed;
            inside_[static_cast<std::size_t>(y) * static_cast<std::size_t>(columns_) +
                    static_cast<std::size_t>(x)] = passed % 2;
        }
    }
}

bool EdgeIndex::contains(const glm::dvec2& p) const {
    const glm::dvec2 q = (p - low_) / reach_mm_;
    if (q.x < 0 || q.y < 0 || q.x >= columns_ || q.y >= rows_) return false;
    const int x = static_cast<int>(q.x), y = static_cast<int>(q.y);
    const auto bucket =
        static_cast<std::size_t>(y) * static_cast<std::size_t>(columns_) + static_cast<std::size_t>(x);
    // As inside as the bucket's middle, turned over by every edge between.
    bool inside = inside_[bucket] != 0;
    const glm::dvec2 way = low_ + reach_mm_ * (glm::dvec2(x, y) + 0.5) - p;
    const auto side = [&](const glm::dvec2& v) { return cross(way, v - p); };
    for (const auto e : buckets_[bucket]) {
        const double a = side(edges_[e].a), b = side(edges_[e].b);
        if ((a > 0) == (b > 0)) continue;
        const glm::dvec2 cut = glm::mix(edges_[e].a, edges_[e].b, a / (a - b)) - p;
        const double t = glm::dot(cut, way);
        if (t > 0 && t < glm::dot(way, way)) inside = !inside;
    }
    return inside;
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
    return contains(p) ? d : -d;
}

}  // namespace rakelight
