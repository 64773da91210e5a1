#include "scene/opus/head_joints.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "materials/maths/hash.h"

namespace rakelight {

namespace {

constexpr double kSame_mm = 4e-4;    // corners that two cells share, as clipping leaves them
constexpr double kMostMoved = 0.45;  // of the width: farther from its old place a corner is not moved
constexpr double kLeastLeft = 0.6;   // of its area that a cell keeps
constexpr double kSameRow = 0.5;     // cosine: beyond 60 degrees a row turns a corner, which is mitred

glm::dvec2 turned(const glm::dvec2& v, double rad) {
    const double c = std::cos(rad), s = std::sin(rad);
    return {c * v.x - s * v.y, s * v.x + c * v.y};
}

// The ground of two cells as one, and the ends of the head between them.
struct Pair {
    Ring both;
    glm::dvec2 start{}, end{};
};

// Neither cell's corners but those of the one chain they share may touch the other.
std::optional<Pair> joined(const Ring& a, const Ring& b) {
    const std::size_t n = a.size(), m = b.size();
    std::vector<std::size_t> twin(n, m);
    std::size_t shared = 0;
    for (std::size_t i = 0; i < n; ++i)
        for (std::size_t k = 0; k < m && twin[i] == m; ++k)
            if (std::abs(a[i].x - b[k].x) < kSame_mm && std::abs(a[i].y - b[k].y) < kSame_mm) {
                twin[i] = k;
                ++shared;
            }
    if (shared < 2 || shared == n) return std::nullopt;
    std::size_t first = 0;  // of the chain, in the order of `a`
    while (twin[first] == m || twin[(first + n - 1) % n] != m) ++first;
    std::size_t last = first;
    for (std::size_t k = 1; k < shared; ++k) {
        const std::size_t next = (last + 1) % n;
        if (twin[next] == m || (twin[next] + 1) % m != twin[last]) return std::nullopt;
        last = next;
    }
    Pair pair{{}, a[first], a[last]};
    for (std::size_t i = last; i != first; i = (i + 1) % n) pair.both.push_back(a[i]);
    for (std::size_t k = twin[first]; k != twin[last]; k = (k + 1) % m) pair.both.push_back(b[k]);
    return pair;
}

// The part of `ring` before the line through `at` square to `along`, when the line crosses it just twice,
// near `ends`.
Ring before(const Pair& pair, const glm::dvec2& at, const glm::dvec2& along, double most_moved_mm) {
    const double limit = glm::dot(at, along);
    int crossings = 0;
    const Ring& ring = pair.both;
    for (const auto& [p, q] : edges(ring)) {
        const double dp = glm::dot(p, along) - limit, dq = glm::dot(q, along) - limit;
        if ((dp <= 0) == (dq <= 0)) continue;
        ++crossings;
        const glm::dvec2 cut = glm::mix(p, q, dp / (dp - dq));
        if (std::min(glm::distance(cut, pair.start), glm::distance(cut, pair.end)) > most_moved_mm) return {};
    }
    return crossings == 2 ? cut_by_line(ring, along, limit) : Ring{};
}

}  // namespace

void straighten_heads(std::vector<Ring>& cells, std::span<const Seed> seeds,
                      std::span<const std::size_t> row_of, const HeadRules& rules, std::uint64_t seed) {
    std::vector<std::size_t> order;  // all seeds that stand in rows
    std::vector<std::size_t> starts;
    for (std::size_t s = 0; s < row_of.size(); ++s) {
        if (seeds[s].points_mm.empty()) continue;
        if (order.empty() || row_of[order.back()] != row_of[s]) starts.push_back(order.size());
        order.push_back(s);
    }
    starts.push_back(order.size());
    const auto straighten = [&](std::size_t i, std::size_t j) {
        const glm::dvec2 &from = seeds[i].along, &to = seeds[j].along;
        if (cells[i].size() < 3 || cells[j].size() < 3 || glm::dot(from, to) < kSameRow) return;
        const auto pair = joined(cells[i], cells[j]);
        if (!pair) return;
        const double turn = std::atan2(cross(from, to), glm::dot(from, to));
        const double taken = rules.tolerance_mm / rules.width_mm;  // by the joint
        const double cut = std::copysign(std::max(0.0, std::abs(turn) - taken), turn) / 2;
        const double lean = std::clamp(Rng(hash_combine(seed, i)).spread(), -2.0, 2.0) * rules.lean_rad;
        const glm::dvec2 at = (pair->start + pair->end) / 2.0;
        const double most = kMostMoved * rules.width_mm;
        Ring left = before(*pair, at, turned(from, cut + lean), most);
        Ring right = before(*pair, at, -turned(to, -cut + lean), most);
        if (left.size() < 3 || right.size() < 3 || area_mm2(left) < kLeastLeft * area_mm2(cells[i]) ||
            area_mm2(right) < kLeastLeft * area_mm2(cells[j]))
            return;
        cells[i] = std::move(left);
        cells[j] = std::move(right);
    };
    // Heads of one row share cells, those of different rows do not.
    tbb::parallel_for(std::size_t{1}, starts.size(), [&](std::size_t r) {
        const std::size_t first = starts[r - 1], last = starts[r];
        for (std::size_t k = first; k + 1 < last; ++k) straighten(order[k], order[k + 1]);
        if (last - first > 2) straighten(order[last - 1], order[first]);  // a closed row
    });
}

}  // namespace rakelight
