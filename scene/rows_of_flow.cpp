#include "scene/rows_of_flow.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <numbers>

namespace rakelight {

namespace {

// A unit complex number, written out: the library's product guards against infinities that cannot occur here.
struct Phase {
    float re = 0;
    float im = 0;
};

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

constexpr std::array<glm::ivec2, 4> kHalfStar{{{1, 0}, {0, 1}, {1, 1}, {-1, 1}}};

struct Link {
    Phase turn;          // phase gained from this node to the neighbour
    bool flips = false;  // their normals point opposite ways
};

class PhaseField {
  public:
    PhaseField(const std::vector<Flow>& flow, const Lattice& lattice, double row_mm)
        : lattice_(lattice),
          phase_(lattice.count()),
          pinned_(lattice.count(), 0),
          normal_(lattice.count()),
          links_(lattice.count()) {
        const double turns = 2 * std::numbers::pi / row_mm;
        for (std::size_t i = 0; i < flow.size(); ++i) normal_[i] = {-flow[i].along.y, flow[i].along.x};
        for (int y = 0; y < lattice.rows; ++y)
            for (int x = 0; x < lattice.columns; ++x) {
                const std::size_t i = lattice.index(x, y);
                for (std::size_t k = 0; k < kHalfStar.size(); ++k) {
                    const glm::ivec2 q = glm::ivec2(x, y) + kHalfStar[k];
                    if (!holds(q)) continue;
                    glm::dvec2 other = normal_[lattice.index(q.x, q.y)];
                    Link& link = links_[i][k];
                    link.flips = glm::dot(normal_[i], other) < 0;
                    if (link.flips) other = -other;
                    const double gain = turns * lattice.step_mm *
                                        glm::dot(0.5 * (normal_[i] + other), glm::dvec2(kHalfStar[k]));
                    link.turn = of_angle(gain);
                }
                // On a guide the phase is half a turn: a joint runs along it and rows lie on both sides.
                if (flow[i].distance_mm < 0.75 * row_mm) {
                    const double side = glm::dot(normal_[i], flow[i].away) < 0 ? -1 : 1;
                    // Off the ends of a guide "away" runs along the rows and says nothing of the phase.
                    pinned_[i] = std::abs(glm::dot(normal_[i], flow[i].away)) > 0.85;
                    if (pinned_[i])
                        phase_[i] = of_angle(std::numbers::pi + side * turns * flow[i].distance_mm);
                }
            }
        spread(flow);
    }

    void relax(int sweeps) {
        for (int sweep = 0; sweep < sweeps; ++sweep)
            for (int y = 0; y < lattice_.rows; ++y)
                for (int k = 0; k < lattice_.columns; ++k) {
                    const int x = sweep % 2 ? lattice_.columns - 1 - k : k;
                    const int row = sweep & 2 ? lattice_.rows - 1 - y : y;
                    const std::size_t i = lattice_.index(x, row);
                    if (!pinned_[i]) phase_[i] = agreed(x, row);
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
            const glm::ivec2 next = glm::ivec2(x, y) + kHalfStar[k];
            if (holds(next)) {
                const Link& link = links_[i][k];
                const Phase there = phase_[lattice_.index(next.x, next.y)];
                sum += (link.flips ? conjugate(there) : there) * conjugate(link.turn);
            }
            const glm::ivec2 last = glm::ivec2(x, y) - kHalfStar[k];
            if (holds(last)) {
                const std::size_t j = lattice_.index(last.x, last.y);
                const Phase here = phase_[j] * links_[j][k].turn;
                sum += links_[j][k].flips ? conjugate(here) : here;
            }
        }
        const float length = std::sqrt(sum.re * sum.re + sum.im * sum.im);
        return length > 1e-6f ? Phase{sum.re / length, sum.im / length} : Phase{1, 0};
    }

    // First guess: nodes in order of distance from the guides agree with those already set.
    void spread(const std::vector<Flow>& flow) {
        std::vector<std::uint32_t> order;
        for (std::uint32_t i = 0; i < phase_.size(); ++i)
            if (!pinned_[i]) order.push_back(i);
        std::stable_sort(order.begin(), order.end(), [&](std::uint32_t a, std::uint32_t b) {
            return flow[a].distance_mm < flow[b].distance_mm;
        });
        for (const auto i : order)
            phase_[i] =
                agreed(static_cast<int>(i) % lattice_.columns, static_cast<int>(i) / lattice_.columns);
    }

    Lattice lattice_;
    std::vector<Phase> phase_;
    std::vector<char> pinned_;
    std::vector<glm::dvec2> normal_;
    std::vector<std::array<Link, 4>> links_;
};

// Marching squares on the zero of the imaginary part where the real part is positive. Crossings are named by
// the lattice edge they lie on, so that segments of neighbouring squares link exactly.
std::vector<Row> PhaseField::middle_lines() const {
    struct Ends {
        std::array<std::int64_t, 2> next{-1, -1};
        glm::dvec2 at{0};
    };
    const auto edge_name = [&](int x, int y, int direction) {
        return static_cast<std::int64_t>(lattice_.index(x, y)) * 2 + direction;
    };
    std::vector<Ends> crossings(2 * lattice_.count());
    const auto link = [&](std::int64_t a, std::int64_t b) {
        auto& n = crossings[static_cast<std::size_t>(a)].next;
        (n[0] < 0 ? n[0] : n[1]) = b;
    };
    for (int y = 0; y + 1 < lattice_.rows; ++y)
        for (int x = 0; x + 1 < lattice_.columns; ++x) {
            const std::array<glm::ivec2, 4> corner{{{x, y}, {x + 1, y}, {x + 1, y + 1}, {x, y + 1}}};
            const std::array<std::int64_t, 4> name{edge_name(x, y, 0), edge_name(x + 1, y, 1),
                                                   edge_name(x, y + 1, 0), edge_name(x, y, 1)};
            std::array<Phase, 4> value;
            const std::size_t first = lattice_.index(x, y);
            for (std::size_t c = 0; c < 4; ++c) {
                const std::size_t i = lattice_.index(corner[c].x, corner[c].y);
                value[c] = glm::dot(normal_[first], normal_[i]) < 0 ? conjugate(phase_[i]) : phase_[i];
            }
            std::array<std::int64_t, 4> found{};
            std::size_t count = 0;
            for (std::size_t c = 0; c < 4; ++c) {
                const Phase a = value[c];
                const Phase b = value[(c + 1) % 4];
                if ((a.im < 0) == (b.im < 0)) continue;
                const float t = a.im / (a.im - b.im);
                if (a.re + t * (b.re - a.re) <= 0) continue;
                found[count++] = name[c];
                crossings[static_cast<std::size_t>(name[c])].at = glm::mix(
                    lattice_.at(corner[c].x, corner[c].y),
                    lattice_.at(corner[(c + 1) % 4].x, corner[(c + 1) % 4].y), static_cast<double>(t));
            }
            if (count != 2) continue;
            link(found[0], found[1]);
            link(found[1], found[0]);
        }
    std::vector<Row> rows;
    std::vector<char> used(crossings.size(), 0);
    const auto trace = [&](std::size_t start) {
        Row row;
        auto at = static_cast<std::int64_t>(start);
        while (at >= 0 && !used[static_cast<std::size_t>(at)]) {
            used[static_cast<std::size_t>(at)] = 1;
            const Ends& e = crossings[static_cast<std::size_t>(at)];
            row.line_mm.push_back(e.at);
            const auto back = static_cast<std::int64_t>(start);
            row.closed = row.line_mm.size() > 2 && (e.next[0] == back || e.next[1] == back);
            at = e.next[0] >= 0 && !used[static_cast<std::size_t>(e.next[0])] ? e.next[0] : e.next[1];
        }
        rows.push_back(std::move(row));
    };
    for (std::size_t i = 0; i < crossings.size(); ++i)  // open lines from their ends
        if (!used[i] && crossings[i].next[0] >= 0 && crossings[i].next[1] < 0) trace(i);
    for (std::size_t i = 0; i < crossings.size(); ++i)
        if (!used[i] && crossings[i].next[0] >= 0) trace(i);
    return rows;
}

// Takes out the lattice's steps: a few rounds of averaging with the neighbours.
void smooth(Row& row) {
    auto& line = row.line_mm;
    const std::size_t n = line.size();
    if (n < 3) return;
    for (int round = 0; round < 4; ++round) {
        const auto before = line;
        for (std::size_t i = row.closed ? 0 : 1; i < (row.closed ? n : n - 1); ++i)
            line[i] = 0.5 * before[i] + 0.25 * (before[(i + n - 1) % n] + before[(i + 1) % n]);
    }
}

}  // namespace

std::vector<Row> rows_of_flow(const std::vector<Flow>& flow, const Lattice& lattice, double row_mm) {
    PhaseField field(flow, lattice, row_mm);
    field.relax(40);
    auto rows = field.middle_lines();
    for (auto& row : rows) smooth(row);
    return rows;
}

}  // namespace rakelight
