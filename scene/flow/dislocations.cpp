#include "scene/flow/dislocations.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <optional>

#include "scene/geometry/point_grid.h"
#include "scene/geometry/polygon.h"

namespace rakelight {

namespace {

constexpr double kFadesFrom = 1.5, kFadesTo = 3.5;  // of the way, from its middle: where its phase fades out

std::size_t index(const PhaseLattice& l, int x, int y) {
    return static_cast<std::size_t>(y) * static_cast<std::size_t>(l.columns) + static_cast<std::size_t>(x);
}

// What the phase gains over link `k` of node `i` to node `j`, as seen by the normal of `i`, radians.
double gain(const PhaseLattice& l, std::size_t i, std::size_t k, std::size_t j) {
    const PhaseLink& link = l.links[i][k];
    const Phase here = l.phase[i];
    Phase there = l.phase[j];
    if (link.flips) there.im = -there.im;
    // there / (here * turn): how far the two disagree, beside what they should gain
    const double due_re =
        static_cast<double>(here.re) * link.turn.re - static_cast<double>(here.im) * link.turn.im;
    const double due_im =
        static_cast<double>(here.re) * link.turn.im + static_cast<double>(here.im) * link.turn.re;
    const double off_re = there.re * due_re + there.im * due_im,
                 off_im = there.im * due_re - there.re * due_im;
    return std::atan2(off_im, off_re) +
           std::atan2(static_cast<double>(link.turn.im), static_cast<double>(link.turn.re));
}

// Whether the phase agrees with its neighbour's to half a radian or so: round a square of such links it
// cannot wind, and nearly all are.
bool agrees(const PhaseLattice& l, std::size_t i, std::size_t k, std::size_t j) {
    const PhaseLink& link = l.links[i][k];
    const Phase here = l.phase[i];
    Phase there = l.phase[j];
    if (link.flips) there.im = -there.im;
    const float due_re = here.re * link.turn.re - here.im * link.turn.im;
    const float due_im = here.re * link.turn.im + here.im * link.turn.re;
    return std::abs(there.im * due_re - there.re * due_im) < 0.6f * (there.re * due_re + there.im * due_im);
}

// The whole turns round the square whose lower left node is (x, y).
int winding(const PhaseLattice& l, int x, int y) {
    const std::size_t a = index(l, x, y), b = index(l, x + 1, y), c = index(l, x + 1, y + 1),
                      d = index(l, x, y + 1);
    if (l.links[a][0].cut || l.links[a][1].cut || l.links[b][1].cut || l.links[d][0].cut) return 0;
    if (agrees(l, a, 0, b) && agrees(l, b, 1, c) && agrees(l, d, 0, c) && agrees(l, a, 1, d)) return 0;
    const double sense_b = l.links[a][0].flips ? -1 : 1, sense_d = l.links[a][1].flips ? -1 : 1;
    const bool point =
        (l.links[a][0].flips != l.links[b][1].flips) != (l.links[a][1].flips != l.links[d][0].flips);
    if (point) return 0;
    const double sum =
        gain(l, a, 0, b) + sense_b * gain(l, b, 1, c) - sense_d * gain(l, d, 0, c) - gain(l, a, 1, d);
    return static_cast<int>(std::lround(sum / (2 * std::numbers::pi)));
}

struct Pair {
    std::size_t from, to;
    double cost;
};

class Joiner {
  public:
    Joiner(PhaseLattice& phases, const Lattice& lattice, std::span<const glm::dvec2> normal, double row_mm,
           const JoinReach& reach)
        : phases_(phases),
          lattice_(lattice),
          normal_(normal),
          row_mm_(row_mm),
          reach_(reach),
          all_(dislocations(phases)) {}

    int join() {
        std::vector<char> done(all_.size(), 0);
        int joined = 0;
        for (const Pair& pair : pairs()) {
            if (done[pair.from] || done[pair.to] || !lead(all_[pair.from], all_[pair.to])) continue;
            done[pair.from] = done[pair.to] = 1;
            ++joined;
        }
        return joined;
    }

  private:
    glm::dvec2 middle(const Dislocation& d) const { return lattice_.at(d.x, d.y) + lattice_.step_mm / 2; }
    const glm::dvec2& normal(const Dislocation& d) const { return normal_[lattice_.index(d.x, d.y)]; }

    std::vector<Pair> pairs() const {
        const double far = std::max(reach_.along, reach_.across) * row_mm_;
        PointGrid<std::size_t> grid(far);
        for (std::size_t i = 0; i < all_.size(); ++i) grid.add(middle(all_[i]), i);
        std::vector<Pair> pairs;
        for (std::size_t i = 0; i < all_.size(); ++i)
            grid.each_near(middle(all_[i]), 1, [&](std::size_t j) {
                if (j <= i) return;
                const glm::dvec2 way = middle(all_[j]) - middle(all_[i]);
                const double turned = glm::dot(normal(all_[i]), normal(all_[j]));
                if (std::abs(turned) < 0.5 || all_[i].sense * all_[j].sense * turned > 0) return;
                glm::dvec2 across = normal(all_[i]) + (turned < 0 ? -normal(all_[j]) : normal(all_[j]));
                across /= glm::length(across);
                const double cost = std::hypot(cross(way, across) / (reach_.along * row_mm_),
                                               glm::dot(way, across) / (reach_.across * row_mm_));
                if (cost < 1) pairs.push_back({i, j, cost});
            });
        std::stable_sort(pairs.begin(), pairs.end(),
                         [](const Pair& a, const Pair& b) { return a.cost < b.cost; });
        return pairs;
    }

    // Takes the winding at `from` to `to`, where it meets its opposite. Not over a guide or a break, nor
    // where rows turn so far that senses cannot be told.
    bool lead(const Dislocation& from, const Dislocation& to) {
        const glm::dvec2 p = middle(from), q = middle(to), heart = (p + q) / 2.0;
        const double way = std::max(glm::distance(p, q), row_mm_);
        const double reach = kFadesTo * way;
        const glm::ivec2 low = glm::max(
            glm::ivec2(glm::floor((heart - reach - lattice_.low_mm) / lattice_.step_mm)), glm::ivec2(0));
        const glm::ivec2 high =
            glm::min(glm::ivec2(glm::ceil((heart + reach - lattice_.low_mm) / lattice_.step_mm)),
                     glm::ivec2(lattice_.columns - 1, lattice_.rows - 1));
        if (!clear(p, q, normal(from))) return false;
        for (int y = low.y; y <= high.y; ++y)
            for (int x = low.x; x <= high.x; ++x) {
                const std::size_t i = lattice_.index(x, y);
                const glm::dvec2 at = lattice_.at(x, y);
                const double away = glm::distance(at, heart);
                if (phases_.pinned[i] || away >= reach) continue;
                const double fade = std::clamp((reach - away) / ((kFadesTo - kFadesFrom) * way), 0.0, 1.0);
                const glm::dvec2 a = at - p, b = at - q;
                const double seen = std::atan2(cross(b, a), glm::dot(a, b));  // angle of a less that of b
                const double sense = glm::dot(normal_[i], normal(from)) < 0 ? -1 : 1;
                const double turn = -sense * from.sense * fade * fade * (3 - 2 * fade) * seen;
                const double re = std::cos(turn), im = std::sin(turn);
                const Phase was = phases_.phase[i];
                phases_.phase[i] = {static_cast<float>(was.re * re - was.im * im),
                                    static_cast<float>(was.re * im + was.im * re)};
            }
        return true;
    }

    bool clear(const glm::dvec2& p, const glm::dvec2& q, const glm::dvec2& normal) const {
        const int steps = static_cast<int>(std::ceil(glm::distance(p, q) / lattice_.step_mm)) + 1;
        for (int s = 0; s <= steps; ++s) {
            const glm::ivec2 at(glm::floor(
                (glm::mix(p, q, static_cast<double>(s) / steps) - lattice_.low_mm) / lattice_.step_mm));
            for (int corner = 0; corner < 4; ++corner) {
                const glm::ivec2 n = glm::clamp(at + glm::ivec2(corner & 1, corner >> 1), glm::ivec2(0),
                                                glm::ivec2(lattice_.columns - 1, lattice_.rows - 1));
                const std::size_t i = lattice_.index(n.x, n.y);
                if (phases_.pinned[i] || std::abs(glm::dot(normal_[i], normal)) < 0.3) return false;
                for (const PhaseLink& link : phases_.links[i])
                    if (link.cut) return false;
            }
        }
        return true;
    }

    PhaseLattice& phases_;
    const Lattice& lattice_;
    std::span<const glm::dvec2> normal_;
    double row_mm_;
    JoinReach reach_;
    std::vector<Dislocation> all_;
};

}  // namespace

std::vector<Dislocation> dislocations(const PhaseLattice& phases) {
    std::vector<Dislocation> all;
    for (int y = 0; y + 1 < phases.rows; ++y)
        for (int x = 0; x + 1 < phases.columns; ++x)
            if (const int turns = winding(phases, x, y)) all.push_back({x, y, turns > 0 ? 1 : -1});
    return all;
}

int join_broken_rows(PhaseLattice& phases, const Lattice& lattice, std::span<const glm::dvec2> normal,
                     double row_mm, const JoinReach& reach) {
    return Joiner(phases, lattice, normal, row_mm, reach).join();
}

}  // namespace rakelight
