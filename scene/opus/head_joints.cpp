#include "scene/opus/head_joints.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>
#include <utility>

#include "materials/maths/hash.h"
#include "scene/flow/keystone.h"

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

// A head as it is to be cut: the ground of both pieces, and the way along the row on which either piece is
// square to it.
struct Head {
    std::size_t from = 0, to = 0;
    glm::dvec2 front{1, 0}, back{1, 0};  // of the piece before it, of the piece after it
    bool known = false;                  // one line that both pieces share
    bool fits = false;                   // it can be cut anew
    double turn_rad = 0;                 // of both
};

// The pieces on both sides of a head, cut at it when it is turned by so much; empty where it does not fit.
std::pair<Ring, Ring> parted(const Pair& pair, const Head& head, double turn_rad,
                             const std::vector<Ring>& cells, double width_mm) {
    const glm::dvec2 at = (pair.start + pair.end) / 2.0;
    const double most = kMostMoved * width_mm;
    Ring from = before(pair, at, turned(head.front, turn_rad), most);
    Ring to = before(pair, at, -turned(head.back, turn_rad), most);
    if (from.size() < 3 || to.size() < 3 || area_mm2(from) < kLeastLeft * area_mm2(cells[head.from]) ||
        area_mm2(to) < kLeastLeft * area_mm2(cells[head.to]))
        return {};
    return {std::move(from), std::move(to)};
}

// Cuts both pieces at the head, turned as far as it fits.
void cut_at(const Head& head, std::vector<Ring>& cells, double width_mm) {
    const auto pair = joined(cells[head.from], cells[head.to]);
    if (!pair) return;
    for (const double share : {1.0, 0.5, 0.0}) {
        auto [from, to] = parted(*pair, head, share * head.turn_rad, cells, width_mm);
        if (!from.empty()) {
            cells[head.from] = std::move(from);
            cells[head.to] = std::move(to);
            return;
        }
        if (head.turn_rad == 0) return;
    }
}

double angle_rad(const glm::dvec2& from, const glm::dvec2& to) {
    return std::atan2(cross(from, to), glm::dot(from, to));
}

// Turns heads until no piece between two of them is cut to more than a nipper holds.
void spread_wedges(std::vector<Head>& heads, bool closed) {
    constexpr int kRounds = 6;
    constexpr double kMost_rad = (kMostWedge_deg - 2) * std::numbers::pi / 180;  // the hand takes the rest
    const std::size_t n = heads.size();
    for (int round = 0; round < kRounds; ++round) {
        bool over = false;
        for (std::size_t k = closed ? 0 : 1; k < n; ++k) {
            Head &first = heads[(k + n - 1) % n], &second = heads[k];
            if (!first.known || !second.known) continue;
            const double wedge = angle_rad(first.back, second.front) + second.turn_rad - first.turn_rad;
            if (std::abs(wedge) <= kMost_rad) continue;
            over = true;
            const double by = std::copysign(std::abs(wedge) - kMost_rad, wedge);
            first.turn_rad += by / 2;
            second.turn_rad -= by / 2;
        }
        if (!over) return;
    }
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
    const auto plan = [&](std::size_t i, std::size_t j) {
        Head head{i, j, {}, {}, false, false, 0};
        const glm::dvec2 &from = seeds[i].along, &to = seeds[j].along;
        if (cells[i].size() < 3 || cells[j].size() < 3 || glm::dot(from, to) < kSameRow) return head;
        const auto pair = joined(cells[i], cells[j]);
        if (!pair) return head;
        const double turn = angle_rad(from, to);
        const double taken = rules.tolerance_mm / rules.width_mm;  // by the joint
        const double cut = std::copysign(std::max(0.0, std::abs(turn) - taken), turn) / 2;
        const double lean = std::clamp(Rng(hash_combine(seed, i)).spread(), -2.0, 2.0) * rules.lean_rad;
        head.front = turned(from, cut + lean);
        head.back = turned(to, -cut + lean);
        head.fits = !parted(*pair, head, 0, cells, rules.width_mm).first.empty();
        head.known = head.fits;
        if (!head.fits && pair->start != pair->end) {  // it stays as it was shared out
            const glm::dvec2 chord = glm::normalize(pair->end - pair->start);
            head.front = head.back = {chord.y, -chord.x};
            head.known = glm::dot(head.front, from) > kSameRow;
        }
        return head;
    };
    // Heads of one row share cells, those of different rows do not.
    tbb::parallel_for(std::size_t{1}, starts.size(), [&](std::size_t r) {
        const std::size_t first = starts[r - 1], last = starts[r];
        std::vector<Head> heads;
        for (std::size_t k = first; k + 1 < last; ++k) heads.push_back(plan(order[k], order[k + 1]));
        const bool closed = last - first > 2;
        if (closed) heads.push_back(plan(order[last - 1], order[first]));
        spread_wedges(heads, closed);
        for (const Head& head : heads)
            if (head.fits || head.turn_rad != 0) cut_at(head, cells, rules.width_mm);
    });
}

}  // namespace rakelight
