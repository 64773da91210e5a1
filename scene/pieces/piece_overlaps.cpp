#include "scene/pieces/piece_overlaps.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <numeric>

namespace rakelight {

namespace {

double side(const glm::dvec2& a, const glm::dvec2& b, const glm::dvec2& p) {
    return cross(b - a, p - a);
}

// Whether they may share ground: an edge of one crosses one of the other, or one lies in the other.
bool may_meet(const Ring& a, const Ring& b) {
    for (const auto& [p, q] : edges(a))
        for (const auto& [r, s] : edges(b))
            if (side(p, q, r) * side(p, q, s) <= 0 && side(r, s, p) * side(r, s, q) <= 0) return true;
    return contains(a, b[0]) || contains(b, a[0]);
}

}  // namespace

std::vector<Overlap> overlaps(const std::vector<const Ring*>& outlines, double tolerance_mm) {
    std::vector<Box> boxes;
    for (const Ring* ring : outlines) boxes.push_back(bounds(*ring));
    // Swept from left to right in strips as high as a usual piece.
    double height = 0;
    for (const Box& box : boxes) height += box.size().y / static_cast<double>(boxes.size());
    if (!(height > 0)) return {};
    double low = 1e300, high = -1e300;
    for (const Box& box : boxes) low = std::min(low, box.low.y), high = std::max(high, box.high.y);
    height = std::max(2 * height, (high - low) / 1e5);
    const auto strip = [&](double y) { return static_cast<std::size_t>((y - low) / height); };
    std::vector<std::vector<std::size_t>> strips(strip(high) + 1);
    std::vector<std::size_t> order(outlines.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return boxes[a].low.x != boxes[b].low.x ? boxes[a].low.x < boxes[b].low.x : a < b;
    });
    for (const std::size_t i : order)
        for (std::size_t s = strip(boxes[i].low.y); s <= strip(boxes[i].high.y); ++s) strips[s].push_back(i);
    std::vector<std::vector<Overlap>> found(strips.size());
    tbb::parallel_for(std::size_t{0}, strips.size(), [&](std::size_t s) {
        for (std::size_t i = 0; i < strips[s].size(); ++i)
            for (std::size_t k = i + 1; k < strips[s].size(); ++k) {
                const std::size_t a = std::min(strips[s][i], strips[s][k]),
                                  b = std::max(strips[s][i], strips[s][k]);
                if (boxes[strips[s][k]].low.x >= boxes[strips[s][i]].high.x) break;
                const double from = std::max(boxes[a].low.y, boxes[b].low.y);
                // A pair is looked at in the lowest strip that both are in.
                if (from >= std::min(boxes[a].high.y, boxes[b].high.y) || strip(from) != s) continue;
                if (!may_meet(*outlines[a], *outlines[b])) continue;
                const Region shared = intersect(region_of(*outlines[a]), region_of(*outlines[b]));
                if (grow(shared, -tolerance_mm / 2).empty()) continue;
                Box box;
                for (const Ring& ring : shared.rings)
                    for (const auto& p : ring) box.add(p);
                found[s].push_back({a, b, area_mm2(shared), (box.low + box.high) / 2.0});
            }
    });
    std::vector<Overlap> all;
    for (const auto& some : found) all.insert(all.end(), some.begin(), some.end());
    std::sort(all.begin(), all.end(), [](const Overlap& a, const Overlap& b) {
        return a.first != b.first ? a.first < b.first : a.second < b.second;
    });
    return all;
}

}  // namespace rakelight
