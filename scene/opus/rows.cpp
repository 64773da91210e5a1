// Laying of rows, straight or flowing.
#include <algorithm>
#include <cmath>

#include "scene/geometry/edge_index.h"
#include "scene/geometry/point_grid.h"
#include "scene/opus/forks.h"
#include "scene/opus/head_joints.h"
#include "scene/opus/opus.h"

namespace rakelight {

namespace {

// No row steps over a slit in the ground: of points one step apart, one at least lies nearer to it.
constexpr double kOffEdge = 0.55;  // of a step

constexpr std::size_t kMostParts = 16;  // of a ground, laid one by one: each looks at all rows

// Points of rows already accepted, to keep later rows off them.
class Trodden {
  public:
    explicit Trodden(double reach_mm) : reach_mm_(reach_mm), points_(reach_mm) {}
    void add(const glm::dvec2& p, std::size_t row) { points_.add(p, {p, row}); }
    bool near(const glm::dvec2& p, std::size_t row) const {
        return !points_.all_near(
            p, 1, [&](const Point& q) { return q.row == row || glm::distance(p, q.at) >= reach_mm_; });
    }
    /// Every row with a point within reach, again and again.
    template <class Visit>
    void each(const glm::dvec2& p, Visit&& visit) const {
        points_.each_near(p, 1, [&](const Point& q) {
            if (glm::distance(p, q.at) < reach_mm_) visit(q.row);
        });
    }

  private:
    struct Point {
        glm::dvec2 at;
        std::size_t row;
    };
    double reach_mm_;
    PointGrid<Point> points_;
};

double length_mm(const Row& row) {
    double sum = 0;
    for (std::size_t i = 1; i < row.line_mm.size(); ++i)
        sum += glm::distance(row.line_mm[i], row.line_mm[i - 1]);
    return sum;
}

// A row that comes to lie beside itself, as a spiral does, in parts that do not: the heads of each turn must
// be set before those of the next.
std::vector<Row> unwound(const Row& row, double across_mm) {
    const auto line = resampled(row, across_mm / 2);
    const std::size_t n = line.size();
    constexpr std::size_t kApart = 8;    // points: nearer along the row is not beside it
    constexpr std::size_t kStagger = 1;  // points: half a width or so
    const auto part_from = [&](std::size_t first) {
        Trodden trodden(1.4 * across_mm);
        std::size_t i = first;
        for (; i < n; ++i) {
            if (i >= first + kApart) {
                const std::size_t k = i - kApart;
                if (!row.closed || k > first + kApart || first > 0) trodden.add(line[k], 0);
            }
            if (trodden.near(line[i], 1) && !(row.closed && first == 0 && i + 2 * kApart > n)) break;
        }
        return i;
    };
    const std::size_t end = part_from(0);
    if (end >= n) return {row};
    std::vector<Row> parts;
    for (std::size_t first = 0; first + 1 < n;) {
        // Each turn ends short of the one before, lest their heads lie in line.
        const std::size_t beside = part_from(first);
        const std::size_t last = std::min(std::max(beside < n ? beside - kStagger : n, first + 2), n);
        parts.push_back({{line.begin() + static_cast<std::ptrdiff_t>(first),
                          line.begin() + static_cast<std::ptrdiff_t>(last)},
                         false});
        first = last - 1;
    }
    return parts;
}

// The order of laying: after a row comes one beside it, so that each finds its neighbour's heads set on one
// side only and is free on the other.
std::vector<std::size_t> neighbours_in_turn(const std::vector<Row>& rows, double across_mm) {
    Trodden beside(1.4 * across_mm);
    std::vector<std::vector<glm::dvec2>> points;
    for (std::size_t r = 0; r < rows.size(); ++r) {
        points.push_back(resampled(rows[r], across_mm));
        for (const auto& p : points[r]) beside.add(p, r);
    }
    std::vector<std::size_t> order;
    std::vector<char> taken(rows.size(), 0);
    for (std::size_t first = 0; first < rows.size(); ++first) {
        if (taken[first]) continue;
        taken[first] = 1;
        order.push_back(first);
        for (std::size_t next = order.size() - 1; next < order.size(); ++next)
            for (const auto& p : points[order[next]])
                beside.each(p, [&](std::size_t r) {
                    if (taken[r]) return;
                    taken[r] = 1;
                    order.push_back(r);
                });
    }
    return order;
}

// A remnant at the end of a row goes to the piece before it, which is then cut from a longer strip: never one
// short piece (common practice, no published source).
void give_remnants_away(std::vector<Seed>& seeds, const std::vector<std::size_t>& row_of, Cells& cells,
                        double whole_mm2) {
    std::vector<double> area;
    for (const auto& cell : cells.of_seed) area.push_back(cell.size() < 3 ? 0 : area_mm2(cell));
    for (std::size_t i = 0; i < row_of.size(); ++i) {
        if (area[i] >= 0.5 * whole_mm2) continue;
        std::size_t taker = i;
        double least = 1.55 * whole_mm2;
        for (const std::size_t j : {i - 1, i + 1}) {
            if (j >= row_of.size() || row_of[j] != row_of[i] || seeds[j].points_mm.empty()) continue;
            if (glm::dot(seeds[i].along, seeds[j].along) < 0.9) continue;
            if (const double both = area[i] + area[j]; both < least) {
                least = both;
                taker = j;
            }
        }
        if (taker == i) continue;
        auto& to = seeds[taker].points_mm;
        to.insert(taker < i ? to.end() : to.begin(), seeds[i].points_mm.begin(), seeds[i].points_mm.end());
        seeds[i].points_mm.clear();
        const auto both = unite({{cells.of_seed[taker]}}, {{cells.of_seed[i]}});
        if (both.rings.size() == 1) cells.of_seed[taker] = both.rings[0];
        cells.of_seed[i].clear();
        seeds[taker].along = seeds[taker].along + seeds[i].along;
        seeds[taker].along /= glm::length(seeds[taker].along);
        area[taker] = least;
        area[i] = 0;
    }
}

// The open end of a row, as it was laid out.
struct RowTip {
    std::size_t last, before;  // seeds: the last, and the one before it, or `last` again
    bool front;                // the last seed's points run towards the tip
    glm::dvec2 at{0}, out{1, 0};
};

std::vector<RowTip> tips_of(const std::vector<Seed>& seeds, const std::vector<std::size_t>& row_of,
                            const std::vector<Row>& rows, double across_mm) {
    // Ends that two rows share are corners, or turns of a spiral.
    PointGrid<glm::dvec2> ends(across_mm);
    for (const Row& row : rows)
        if (!row.closed)
            for (const auto& p : {row.line_mm.front(), row.line_mm.back()}) ends.add(p, p);
    const auto shared = [&](const glm::dvec2& p) {
        int met = 0;
        ends.each_near(p, 1, [&](const glm::dvec2& q) { met += glm::distance(p, q) < 0.3 * across_mm; });
        return met > 1;
    };
    std::vector<RowTip> tips;
    for (std::size_t first = 0; first < row_of.size();) {
        std::size_t end = first;
        std::vector<std::size_t> held;
        for (; end < row_of.size() && row_of[end] == row_of[first]; ++end)
            if (!seeds[end].points_mm.empty()) held.push_back(end);
        const Row& row = rows[row_of[first]];
        first = end;
        if (row.closed || held.empty() || row.line_mm.size() < 2) continue;
        const auto& line = row.line_mm;
        const std::size_t back = std::min<std::size_t>(4, line.size() - 1);
        const auto tip = [&](std::size_t last, std::size_t before, bool front, const glm::dvec2& at,
                             const glm::dvec2& from) {
            if (!shared(at) && at != from)
                tips.push_back({last, before, front, at, glm::normalize(at - from)});
        };
        tip(held.front(), held[std::min<std::size_t>(1, held.size() - 1)], false, line.front(), line[back]);
        tip(held.back(), held[held.size() - std::min<std::size_t>(2, held.size())], true, line.back(),
            line[line.size() - 1 - back]);
    }
    return tips;
}

constexpr double kAslant = 0.35;  // sine of the angle to the edge: flatter rows run along it
constexpr double kAtEdge = 0.3;   // rows: a tip so near the edge meets it

// The sine of the angle at which a row meets the edge.
double steepness(const RowTip& tip, const EdgeIndex& edge, double across_mm) {
    const double back = kAtEdge * across_mm;
    return (edge.inside_mm(tip.at - back * tip.out) - edge.inside_mm(tip.at)) / back;
}

// Rows stop short of a break, where they cannot be traced: they go on to it. Others stay as they are.
void go_on_to_edge(RowTip& tip, const EdgeIndex& edge, double across_mm) {
    if (edge.inside_mm(tip.at) <= kAtEdge * across_mm) return;
    for (double by = 0; by < across_mm; by += 0.05 * across_mm)
        if (edge.inside_mm(tip.at + by * tip.out) < 0.06 * across_mm) {
            tip.at += by * tip.out;
            return;
        }
}

// A row that meets the edge of its field aslant is laid as if it went on and cut there: else its last piece
// would be nosed.
void run_out(Seed& seed, const RowTip& tip, const EdgeIndex& edge, double across_mm) {
    const double reach = kAtEdge * across_mm;
    if (edge.inside_mm(tip.at) > reach) return;
    // A slit has ground on both sides: there the piece ends at it and takes nothing beyond.
    const auto on_edge = [&](double by_mm) {
        return edge.inside_mm(tip.at + by_mm * tip.out) < 0.06 * across_mm;
    };
    double to_edge = 0;
    while (to_edge < 0.5 * across_mm && !on_edge(to_edge)) to_edge += 0.05 * across_mm;
    const bool slit = edge.inside_mm(tip.at + 0.5 * across_mm * tip.out) > 0;
    if (steepness(tip, edge, across_mm) < kAslant || (slit && !on_edge(to_edge))) return;
    std::vector<glm::dvec2> beyond;
    const glm::dvec2 from = tip.front ? seed.points_mm.back() : seed.points_mm.front();
    const double last = slit ? glm::distance(from, tip.at) + to_edge : 4 * reach;
    for (double by = slit ? last : reach; by <= last + 1e-9; by += reach)
        beyond.push_back(from + by * tip.out);
    if (!tip.front) std::reverse(beyond.begin(), beyond.end());
    seed.points_mm.insert(tip.front ? seed.points_mm.end() : seed.points_mm.begin(), beyond.begin(),
                          beyond.end());
}

std::vector<RowEnd> ends_to_wedge(const std::vector<RowTip>& tips, const EdgeIndex& edge, double across_mm) {
    std::vector<RowEnd> ends;
    // In the field, or where a row runs out along its edge, with room for others on its other side.
    const auto runs_out = [&](const RowTip& tip) {
        const double inside = edge.inside_mm(tip.at);
        if (inside <= 0 || inside > kAtEdge * across_mm || steepness(tip, edge, across_mm) >= kAslant)
            return false;
        const glm::dvec2 aside = 1.5 * across_mm * glm::dvec2(-tip.out.y, tip.out.x);
        return std::max(edge.inside_mm(tip.at + aside), edge.inside_mm(tip.at - aside)) > across_mm;
    };
    for (const RowTip& tip : tips) {
        if (tip.before == tip.last) continue;
        const bool at_edge = runs_out(tip);
        if (at_edge || edge.inside_mm(tip.at) > 0.75 * across_mm)
            ends.push_back({tip.last, tip.before, at_edge});
    }
    return ends;
}

// What no cell took, and is not too small to be held, is a piece of its own rather than a lake of grout.
void fill_lakes(Cells& cells, std::vector<Seed>& seeds, double least_mm2) {
    for (Ring& ring : cells.orphans) {
        if (area_mm2(ring) < least_mm2) continue;
        const glm::dvec2 middle = centroid(ring);
        glm::dvec2 along(1, 0);  // as the piece nearest to it
        double nearest = 1e300;
        for (const Seed& seed : seeds)
            if (!seed.points_mm.empty())
                if (const double d = glm::distance(seed.points_mm.front(), middle); d < nearest) {
                    nearest = d;
                    along = seed.along;
                }
        seeds.push_back({{middle}, along});
        cells.of_seed.push_back(std::move(ring));
    }
    cells.orphans.clear();
}

}  // namespace

std::vector<glm::dvec2> lay_rows(const std::vector<Row>& rows, const Region& ground, const FieldHand& hand,
                                 HeadJoints& heads, std::uint64_t seed, std::vector<Piece>& pieces,
                                 std::span<const Eye> drops) {
    std::vector<glm::dvec2> places;
    // What a break parts is laid part by part: no piece then claims ground beyond it.
    if (const auto parts = islands(ground); parts.size() > 1 && parts.size() <= kMostParts) {
        for (std::size_t i = 0; i < parts.size(); ++i)
            for (const auto& p : lay_rows(rows, parts[i], hand, heads, hash_combine(seed, i), pieces, drops))
                places.push_back(p);
        return places;
    }
    const Pitch& pitch = hand.pitch;
    const double step = 0.1 * std::min(pitch.along_mm, pitch.across_mm);
    const EdgeIndex edge(ground, 1.2 * pitch.across_mm);
    // Longer rows have the right of way where two come too near.
    std::vector<std::size_t> order(rows.size());
    for (std::size_t i = 0; i < rows.size(); ++i) order[i] = i;
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return length_mm(rows[a]) > length_mm(rows[b]); });
    std::vector<Eye> here;
    for (const Eye& drop : drops)
        if (edge.inside_mm(drop.middle_mm) > 0) here.push_back(drop);
    Trodden trodden(0.62 * pitch.across_mm);
    std::vector<std::vector<Row>> clear(rows.size());
    for (const auto r : order) {
        for (auto& part : stretches(rows[r], step, [&](const glm::dvec2& p) {
                 return edge.inside_mm(p) > kOffEdge * step && !trodden.near(p, r) &&
                        !within(here, p, 0.25 * pitch.across_mm);
             })) {
            if (length_mm(part) < 0.35 * pitch.along_mm) continue;
            for (std::size_t i = 0; i < part.line_mm.size(); i += 2) trodden.add(part.line_mm[i], r);
            clear[r].push_back(std::move(part));
        }
    }
    std::vector<Row> straight;
    for (const auto& parts : clear)
        for (const auto& part : parts)
            for (const auto& turn : unwound(part, pitch.across_mm))
                for (auto& piece : broken_at_corners(turn, pitch.across_mm, 65))
                    straight.push_back(std::move(piece));
    std::vector<Seed> seeds;
    std::vector<std::size_t> row_of;
    Rng rng(seed);
    for (const auto r : neighbours_in_turn(straight, pitch.across_mm))
        for (auto& piece : cut_row(straight[r], pitch, hand.hand, heads, rng)) {
            // Where a row runs out along the edge its tip is left to the neighbours.
            std::erase_if(piece.points_mm,
                          [&](const glm::dvec2& p) { return edge.inside_mm(p) < 0.13 * pitch.across_mm; });
            if (piece.points_mm.empty()) continue;
            seeds.push_back(std::move(piece));
            row_of.push_back(r);
        }
    const std::size_t first_drop = seeds.size();
    for (const Eye& drop : here) seeds.push_back(seed_of(drop, pitch.across_mm));
    Cells cells = share_out(seeds, ground);
    give_remnants_away(seeds, row_of, cells, pitch.along_mm * pitch.across_mm);
    move_seeds(cells, seeds, 0.5, 0.45 * hand.rules.nominal_mm2);
    auto tips = tips_of(seeds, row_of, straight, pitch.across_mm);
    std::erase_if(tips, [&](const RowTip& tip) { return within(here, tip.at, pitch.across_mm); });
    for (RowTip& tip : tips)
        if (hand.forks) {
            go_on_to_edge(tip, edge, pitch.across_mm);
            run_out(seeds[tip.last], tip, edge, pitch.across_mm);
        }
    cells = share_out(seeds, ground);
    if (hand.forks)
        cut_forks(cells, seeds, row_of, ends_to_wedge(tips, edge, pitch.across_mm),
                  {pitch.along_mm, pitch.across_mm, hand.rules.joint_mm});
    adopt_orphans(cells, 0.7 * hand.rules.nominal_mm2);
    fill_lakes(cells, seeds, 0.2 * hand.rules.nominal_mm2);
    straighten_heads(cells.of_seed, seeds, row_of, heads_of(hand), hash_combine(seed, 4));
    for (std::size_t d = first_drop; d < first_drop + here.size(); ++d) {
        Piece piece;
        piece.outline_mm = drop_from(cells.of_seed[d], kDrawnIn * hand.rules.joint_mm, pitch.across_mm);
        piece.along = seeds[d].along;
        piece.seed = hash_combine(hash_combine(seed, 6), d);
        if (piece.outline_mm.empty()) continue;  // it is cut as any other
        pieces.push_back(std::move(piece));
        cells.of_seed[d].clear();
    }
    cut_cells(cells.of_seed, seeds, hand.rules, hash_combine(seed, 3), pieces);
    for (const RowTip& tip : tips)
        if (edge.inside_mm(tip.at) > 0.75 * pitch.across_mm) places.push_back(tip.at);
    return places;
}

}  // namespace rakelight
