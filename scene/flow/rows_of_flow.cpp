#include "scene/flow/rows_of_flow.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <numbers>
#include <optional>

#include "materials/maths/hash.h"
#include "scene/flow/dislocations.h"
#include "scene/flow/phase_relaxation.h"
#include "scene/flow/row_tips.h"
#include "scene/geometry/contour.h"
#include "scene/geometry/polygon.h"

namespace rakelight {

namespace {

Phase of_angle(double a) {
    return {static_cast<float>(std::cos(a)), static_cast<float>(std::sin(a))};
}
Phase conjugate(Phase a) {
    return {a.re, -a.im};
}
Phase operator*(Phase a, Phase b) {
    return {a.re * b.re - a.im * b.im, a.re * b.im + a.im * b.re};
}
void operator+=(Phase& a, Phase b) {
    a.re += b.re;
    a.im += b.im;
}

glm::ivec2 star(std::size_t k) {
    return {kHalfStar[k][0], kHalfStar[k][1]};
}

// Rows: how far from a stone, and from any other guide, the phase is settled. The first row beside a guide
// may be wider or narrower, lest a gap that is no whole number of rows make some end.
constexpr double kRound = 0.75, kAlong = 0.35;

constexpr double kPatch = 7;  // rows: the size of places at which waves run at one pace

// 0..1, smooth, by chance from place to place, a unit apart (value noise).
double unevenness(const glm::dvec2& p) {
    const glm::dvec2 cell = glm::floor(p), in = p - cell;
    const auto at = [&](int x, int y) {
        const auto column = static_cast<std::uint64_t>(static_cast<std::int64_t>(cell.x) + x);
        const auto row = static_cast<std::uint64_t>(static_cast<std::int64_t>(cell.y) + y);
        return Rng(hash_combine(hash_combine(71, column), row)).unit();
    };
    const glm::dvec2 u = in * in * (3.0 - 2.0 * in);
    return glm::mix(glm::mix(at(0, 0), at(1, 0), u.x), glm::mix(at(0, 1), at(1, 1), u.x), u.y);
}

class PhaseField {
  public:
    PhaseField(const std::vector<Flow>& flow, const Lattice& lattice, double row_mm,
               const std::vector<std::uint8_t>& cut)
        : lattice_(lattice),
          net_{lattice.columns, lattice.rows, std::vector<Phase>(lattice.count()),
               std::vector<std::uint8_t>(lattice.count(), 0),
               std::vector<std::array<PhaseLink, 4>>(lattice.count())},
          normal_(lattice.count()) {
        const double turns = 2 * std::numbers::pi / row_mm;
        for (std::size_t i = 0; i < flow.size(); ++i) normal_[i] = {-flow[i].along.y, flow[i].along.x};
        for (int y = 0; y < lattice.rows; ++y)
            for (int x = 0; x < lattice.columns; ++x) {
                const std::size_t i = lattice.index(x, y);
                for (std::size_t k = 0; k < kHalfStar.size(); ++k) {
                    const glm::ivec2 q = glm::ivec2(x, y) + star(k);
                    if (!holds(q)) continue;
                    glm::dvec2 other = normal_[lattice.index(q.x, q.y)];
                    PhaseLink& link = net_.links[i][k];
                    link.flips = glm::dot(normal_[i], other) < 0;
                    if (link.flips) other = -other;
                    const double closer = 0.5 * (flow[i].close + flow[lattice.index(q.x, q.y)].close);
                    const double gain = turns * closer * lattice.step_mm *
                                        glm::dot(0.5 * (normal_[i] + other), glm::dvec2(star(k)));
                    link.turn = of_angle(gain);
                    link.cut = !cut.empty() && (cut[i] >> k & 1u);
                }
                // On a guide the phase is half a turn: a joint runs along it and rows lie on both sides.
                if (flow[i].distance_mm < (flow[i].round ? kRound : kAlong) * row_mm) {
                    const double side = glm::dot(normal_[i], flow[i].away) < 0 ? -1 : 1;
                    // Off the ends of a guide "away" runs along the rows and says nothing of the phase.
                    net_.pinned[i] = std::abs(glm::dot(normal_[i], flow[i].away)) > 0.85;
                    if (net_.pinned[i])
                        net_.phase[i] =
                            of_angle(std::numbers::pi + side * turns * flow[i].close * flow[i].distance_mm);
                }
            }
        spread(flow, row_mm);
    }

    void relax(int sweeps) { rakelight::relax(net_, sweeps); }
    // Settles, and joins rows that were broken; what could not be led together at once may be after the next
    // round.
    void settle(double row_mm) {
        relax(34);
        for (const int sweeps : {16, 8}) {
            const int joined = join_broken_rows(net_, lattice_, normal_, row_mm);
            relax(sweeps);
            if (joined == 0) return;
        }
    }
    std::vector<Row> middle_lines() const;

  private:
    bool holds(const glm::ivec2& q) const {
        return q.x >= 0 && q.y >= 0 && q.x < lattice_.columns && q.y < lattice_.rows;
    }

    // What the neighbours of a node, carried over to it, say its phase should be.
    Phase agreed(int x, int y) const {
        Phase sum;
        const std::size_t i = lattice_.index(x, y);
        for (std::size_t k = 0; k < kHalfStar.size(); ++k) {
            const glm::ivec2 next = glm::ivec2(x, y) + star(k);
            if (holds(next) && !net_.links[i][k].cut) {
                const PhaseLink& link = net_.links[i][k];
                const Phase there = net_.phase[lattice_.index(next.x, next.y)];
                sum += (link.flips ? conjugate(there) : there) * conjugate(link.turn);
            }
            const glm::ivec2 last = glm::ivec2(x, y) - star(k);
            const std::size_t j = holds(last) ? lattice_.index(last.x, last.y) : 0;
            if (holds(last) && !net_.links[j][k].cut) {
                const Phase here = net_.phase[j] * net_.links[j][k].turn;
                sum += net_.links[j][k].flips ? conjugate(here) : here;
            }
        }
        const float length = std::sqrt(sum.re * sum.re + sum.im * sum.im);
        return length > 1e-6f ? Phase{sum.re / length, sum.im / length} : Phase{1, 0};
    }

    // First guess: nodes in the order in which a wave from the guides comes to them agree with those already
    // set. Where two waves meet rows begin and end; they run at a pace that changes from place to place, lest
    // all that happens on one line.
    void spread(const std::vector<Flow>& flow, double row_mm) {
        constexpr std::size_t kLongest = 64;  // steps of time that a link may take
        std::vector<std::vector<std::uint32_t>> due(kLongest);
        std::vector<std::uint8_t> state(net_.phase.size(), 0);  // 1: awaited, 2: set
        std::size_t waiting = 0;
        const auto await = [&](std::size_t i, std::size_t time) {
            due[time % kLongest].push_back(static_cast<std::uint32_t>(i));
            ++waiting;
        };
        const auto onward = [&](std::size_t i, std::size_t time) {
            const int x = static_cast<int>(i) % lattice_.columns, y = static_cast<int>(i) / lattice_.columns;
            const auto delay =
                static_cast<std::size_t>(8 + 24 * unevenness(lattice_.at(x, y) / (kPatch * row_mm)));
            for (std::size_t k = 0; k < 8; ++k) {
                const glm::ivec2 to = glm::ivec2(x, y) + (k < 4 ? star(k) : -star(k - 4));
                if (!holds(to)) continue;
                const std::size_t j = lattice_.index(to.x, to.y);
                if (state[j] == 2 || net_.links[k < 4 ? i : j][k % 4].cut) continue;
                await(j, time + (k % 4 < 2 ? delay : delay * 7 / 5));
            }
        };
        for (std::size_t i = 0; i < net_.phase.size(); ++i)
            if (net_.pinned[i]) state[i] = 2;
        for (std::size_t i = 0; i < net_.phase.size(); ++i)
            if (net_.pinned[i]) onward(i, 0);
        std::vector<std::uint32_t> by_distance;  // where no wave comes by itself
        std::size_t next = 0;
        for (std::size_t time = 0;; ++time) {
            if (waiting == 0) {
                if (by_distance.empty()) by_distance = unset_by_distance(flow, state);
                while (next < by_distance.size() && state[by_distance[next]] == 2) ++next;
                if (next == by_distance.size()) return;
                await(by_distance[next], time);
            }
            const auto now = std::move(due[time % kLongest]);
            due[time % kLongest].clear();
            waiting -= now.size();
            for (const auto i : now) {
                if (state[i] == 2) continue;
                state[i] = 2;
                net_.phase[i] =
                    agreed(static_cast<int>(i) % lattice_.columns, static_cast<int>(i) / lattice_.columns);
                onward(i, time);
            }
        }
    }

    static std::vector<std::uint32_t> unset_by_distance(const std::vector<Flow>& flow,
                                                        const std::vector<std::uint8_t>& state) {
        std::vector<std::uint32_t> order;
        for (std::uint32_t i = 0; i < state.size(); ++i)
            if (state[i] != 2) order.push_back(i);
        std::stable_sort(order.begin(), order.end(), [&](std::uint32_t a, std::uint32_t b) {
            return flow[a].distance_mm < flow[b].distance_mm;
        });
        return order;
    }

    Lattice lattice_;
    PhaseLattice net_;
    std::vector<glm::dvec2> normal_;
};

// The zero of the imaginary part where the real part is positive, in no square that a break cuts.
std::vector<Row> PhaseField::middle_lines() const {
    const auto square = [&](int x, int y) -> std::optional<ContourSquare> {
        const std::size_t here = lattice_.index(x, y), right = here + 1, above = lattice_.index(x, y + 1);
        if (net_.links[here][0].cut || net_.links[here][1].cut || net_.links[right][1].cut ||
            net_.links[above][0].cut)
            return std::nullopt;
        const auto value = [&](std::size_t i) {
            const Phase p =
                glm::dot(normal_[here], normal_[i]) < 0 ? conjugate(net_.phase[i]) : net_.phase[i];
            return glm::vec2(p.im, p.re);
        };
        return ContourSquare{value(here), value(right), value(above + 1), value(above)};
    };
    std::vector<Row> rows;
    for (auto& line : zero_contours(lattice_.columns, lattice_.rows, square,
                                    [&](int x, int y) { return lattice_.at(x, y); }))
        rows.push_back({std::move(line.line_mm), line.closed});
    return rows;
}

// At a break the last lattice squares are skipped: rows go on straight until they surely meet it.
void reach_breaks(Row& row, double step_mm) {
    auto& line = row.line_mm;
    if (row.closed || line.size() < 5) return;
    const auto onward = [&](const glm::dvec2& from, const glm::dvec2& end) {
        const double length = glm::distance(from, end);
        return length > 0 ? end + (2 * step_mm / length) * (end - from) : end;
    };
    const glm::dvec2 before = onward(line[4], line.front());
    const glm::dvec2 after = onward(line[line.size() - 5], line.back());
    line.insert(line.begin(), before);
    line.push_back(after);
}

// One round of averaging with the neighbours, of the points that `moves` names.
void average(Row& row, const std::vector<char>& moves) {
    auto& line = row.line_mm;
    const std::size_t n = line.size();
    const auto before = line;
    for (std::size_t i = row.closed ? 0 : 1; i < (row.closed ? n : n - 1); ++i)
        if (moves[i]) line[i] = 0.5 * before[i] + 0.25 * (before[(i + n - 1) % n] + before[(i + 1) % n]);
}

// Takes out the lattice's steps.
void smooth(Row& row) {
    const std::vector<char> all(row.line_mm.size(), 1);
    if (all.size() > 2)
        for (int round = 0; round < 4; ++round) average(row, all);
}

// Where rows from two guides meet they bend more tightly than pieces can be wedged: there a row is eased,
// until half a piece spans no more than the most a wedge may be. What turns at one stroke is left to be
// mitred.
void ease(Row& row, double row_mm) {
    constexpr double kTightest = 1.7;  // radius, in rows: half a piece there turns by some 17 degrees
    constexpr double kCorner_rad = 1.2;
    constexpr int kRounds = 120;
    row.line_mm = resampled(row, row_mm / 5);
    if (row.closed) row.line_mm.pop_back();
    auto& line = row.line_mm;
    const auto n = static_cast<std::ptrdiff_t>(line.size());
    constexpr std::ptrdiff_t kReach = 2, kWidth = 4;
    if (n < 4 * kWidth) return;
    const auto drawn = line;
    std::vector<char> moves(line.size());
    for (int round = 0; round < kRounds; ++round) {
        std::fill(moves.begin(), moves.end(), 0);
        bool tight = false;
        const std::ptrdiff_t end = row.closed ? 0 : kReach;
        for (std::ptrdiff_t i = end; i < n - end; ++i) {
            const glm::dvec2 from =
                line[static_cast<std::size_t>(i)] - line[static_cast<std::size_t>((i - kReach + n) % n)];
            const glm::dvec2 to =
                line[static_cast<std::size_t>((i + kReach) % n)] - line[static_cast<std::size_t>(i)];
            const double turn = std::abs(std::atan2(cross(from, to), glm::dot(from, to)));
            if (turn > kCorner_rad && round == 0) return;
            if (turn * kTightest * row_mm < (glm::length(from) + glm::length(to)) / 2) continue;
            tight = true;
            for (std::ptrdiff_t k = -kWidth; k <= kWidth; ++k)
                if (row.closed || (i + k >= 0 && i + k < n))
                    moves[static_cast<std::size_t>((i + k + n) % n)] = 1;
        }
        if (!tight) return;
        // A long curve, as round a stone, is no bend.
        if (2 * std::count(moves.begin(), moves.end(), 1) > n) return;
        for (std::size_t i = 0; i < line.size(); ++i)
            if (glm::distance(line[i], drawn[i]) > 0.3 * row_mm) moves[i] = 0;
        average(row, moves);
    }
}

// Whether the way from `from` to `to` passes a lattice square of which a break cuts a link.
bool over_cut_link(const std::vector<std::uint8_t>& cut, const Lattice& lattice, const glm::dvec2& from,
                   const glm::dvec2& to) {
    const int steps = static_cast<int>(std::ceil(glm::distance(from, to) / lattice.step_mm)) + 1;
    for (int s = 0; s <= steps; ++s) {
        const glm::ivec2 low(glm::floor(
            (glm::mix(from, to, static_cast<double>(s) / steps) - lattice.low_mm) / lattice.step_mm));
        for (int corner = 0; corner < 4; ++corner) {
            const glm::ivec2 n = glm::clamp(low + glm::ivec2(corner & 1, corner >> 1), glm::ivec2(0),
                                            glm::ivec2(lattice.columns - 1, lattice.rows - 1));
            if (cut[lattice.index(n.x, n.y)]) return true;
        }
    }
    return false;
}

}  // namespace

std::vector<Row> rows_of_flow(const std::vector<Flow>& flow, const Lattice& lattice, double row_mm,
                              const std::vector<std::uint8_t>& cut) {
    PhaseField field(flow, lattice, row_mm, cut);
    field.settle(row_mm);
    auto rows = field.middle_lines();
    for (auto& row : rows) {
        smooth(row);
        ease(row, row_mm);
        if (!cut.empty()) reach_breaks(row, lattice.step_mm);
    }
    draw_back_tips(rows, row_mm);
    join_in_line(rows, row_mm, [&](const glm::dvec2& from, const glm::dvec2& to) {
        return cut.empty() || !over_cut_link(cut, lattice, from, to);
    });
    return rows;
}

}  // namespace rakelight
