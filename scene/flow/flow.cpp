#include "scene/flow/flow.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "scene/flow/breaks.h"
#include "scene/flow/breathing.h"
#include "scene/flow/guide_tree.h"
#include "scene/geometry/edge_index.h"

namespace rakelight {

namespace {

constexpr int kCoarse = 3;        // directions vary slowly: they are blended on a lattice so much coarser
constexpr int kSoftRounds = 200;  // rounds of averaging between guides and round the ends of breaks
constexpr int kBlock = 8;         // coarse nodes a side that look at the guides together

glm::dvec2 halved_angle(const glm::dvec2& v) {
    const double turn = 0.5 * std::atan2(v.y, v.x);
    return {std::cos(turn), std::sin(turn)};
}

// Whether one guide leads, 0..1, from its share in the direction of a place.
float leads(double share_of_leader) {
    const double led = std::clamp((share_of_leader - 0.99) / 0.01, 0.0, 1.0);
    return static_cast<float>(led * led);
}

// How strongly a node keeps its direction when it is averaged with its neighbours', beside one of them: much
// where one guide leads, which knows how to turn by itself; little between two.
constexpr float kLittle = 0.02f, kMuch = 3;

struct Blend {
    std::vector<glm::dvec2>
        doubled;             // unit vectors at twice the angle of the rows; zero where breaks hide all
    std::vector<float> led;  // whether one guide leads, 0..1
};

// The directions of all guides at every node.
Blend blended(const GuideTree& tree, std::size_t guides, const Lattice& lattice, double row_mm,
              const std::vector<Row>& breaks) {
    Blend blend{std::vector<glm::dvec2>(lattice.count(), glm::dvec2(0)),
                std::vector<float>(lattice.count(), 0)};
    auto& doubled = blend.doubled;
    const int across = (lattice.columns + kBlock - 1) / kBlock, up = (lattice.rows + kBlock - 1) / kBlock;
    tbb::parallel_for(0, across * up, [&](int block) {
        const int x0 = block % across * kBlock, y0 = block / across * kBlock;
        const int x1 = std::min(x0 + kBlock, lattice.columns), y1 = std::min(y0 + kBlock, lattice.rows);
        const glm::dvec2 low = lattice.at(x0, y0), high = lattice.at(x1 - 1, y1 - 1);
        std::vector<GuideStretch> seen;
        std::vector<double> of_guide(guides);
        tree.seen_from((low + high) / 2.0, glm::distance(low, high) / 2, seen);
        for (int y = y0; y < y1; ++y)
            for (int x = x0; x < x1; ++x) {
                const glm::dvec2 p = lattice.at(x, y);
                glm::dvec2 sum{0};
                std::fill(of_guide.begin(), of_guide.end(), 0.0);
                for (const auto& s : seen) {
                    const glm::dvec2 r = p - s.at_mm;
                    const double d2 = glm::dot(r, r);
                    if (d2 > s.range_mm * s.range_mm || parted(p, s.at_mm, breaks)) continue;
                    const double soft = d2 + 0.3 * row_mm * row_mm;
                    double weight = 1 / (soft * soft);
                    if (std::isfinite(s.range_mm)) {
                        const double fade = 1 - d2 / (s.range_mm * s.range_mm);
                        weight *= fade * fade;
                    }
                    sum += weight * s.doubled;
                    of_guide[s.guide] += weight * s.count;
                }
                double all = 0, most = 0;
                for (const double weight : of_guide) {
                    all += weight;
                    most = std::max(most, weight);
                }
                blend.led[lattice.index(x, y)] = leads(all > 0 ? most / all : 0);
                const double length = glm::length(sum);
                if (length > 0) doubled[lattice.index(x, y)] = sum / length;
            }
    });
    return blend;
}

glm::dvec2 product(const glm::dvec2& a, const glm::dvec2& b) {
    return {a.x * b.x - a.y * b.y, a.x * b.y + a.y * b.x};
}

// Averages directions with their neighbours' on the same side of all breaks and with what they were, but
// near guides: where two guides meet, and at the edge of a shade, which
// no drawn line explains, rows take a smooth turn.
void soften(std::vector<glm::dvec2>& doubled, const Lattice& lattice, const std::vector<std::uint8_t>& cut,
            const std::vector<char>& near_guide, const std::vector<float>& held, int rounds) {
    const auto row = static_cast<std::size_t>(lattice.columns);
    const auto open = [&](std::size_t k, unsigned link) { return cut.empty() || !(cut[k] & link); };
    const auto first = doubled;
    for (int round = 0; round < rounds; ++round) {
        const auto before = doubled;
        tbb::parallel_for(0, lattice.rows, [&](int y) {
            for (int x = 0; x < lattice.columns; ++x) {
                const std::size_t i = lattice.index(x, y);
                if (near_guide[i]) continue;
                glm::dvec2 sum = before[i] + static_cast<double>(held[i]) * first[i];
                if (x + 1 < lattice.columns && open(i, 1)) sum += before[i + 1];
                if (x > 0 && open(i - 1, 1)) sum += before[i - 1];
                if (y + 1 < lattice.rows && open(i, 2)) sum += before[i + row];
                if (y > 0 && open(i - row, 2)) sum += before[i - row];
                if (const double length = glm::length(sum); length > 1e-9) doubled[i] = sum / length;
            }
        });
    }
}

// The same over the whole gap between guides: on a lattice four times as coarse, whose turns are then added.
void soften_far(std::vector<glm::dvec2>& doubled, const Lattice& lattice, const std::vector<Row>& breaks,
                const std::vector<char>& near_guide, const std::vector<float>& held) {
    constexpr int kFar = 4;
    Lattice far = lattice;
    far.step_mm = kFar * lattice.step_mm;
    far.columns = (lattice.columns - 1) / kFar + 2;
    far.rows = (lattice.rows - 1) / kFar + 2;
    std::vector<glm::dvec2> turn(far.count());
    std::vector<char> pinned(far.count());
    std::vector<float> far_held(far.count());
    for (int y = 0; y < far.rows; ++y)
        for (int x = 0; x < far.columns; ++x) {
            const auto at = [&](int dx, int dy) {
                return lattice.index(std::clamp(kFar * x + dx, 0, lattice.columns - 1),
                                     std::clamp(kFar * y + dy, 0, lattice.rows - 1));
            };
            const std::size_t i = far.index(x, y);
            turn[i] = doubled[at(0, 0)];
            far_held[i] = held[at(0, 0)];
            for (int dy = -kFar / 2; dy <= kFar / 2; ++dy)  // a guide between the nodes holds them as well
                for (int dx = -kFar / 2; dx <= kFar / 2; ++dx)
                    if (near_guide[at(dx, dy)]) pinned[i] = 1;
        }
    auto soft = turn;
    soften(soft, far, cut_links(breaks, far), pinned, far_held, kSoftRounds);
    for (std::size_t i = 0; i < turn.size(); ++i) turn[i] = product(soft[i], {turn[i].x, -turn[i].y});
    tbb::parallel_for(0, lattice.rows, [&](int y) {
        for (int x = 0; x < lattice.columns; ++x) {
            const std::size_t i = lattice.index(x, y);
            if (near_guide[i]) continue;
            glm::dvec2 sum{0};
            const glm::dvec2 p = lattice.at(x, y);
            const double u = static_cast<double>(x % kFar) / kFar, v = static_cast<double>(y % kFar) / kFar;
            for (int corner = 0; corner < 4; ++corner) {
                const glm::ivec2 c(x / kFar + (corner & 1), y / kFar + (corner >> 1));
                if (parted(p, far.at(c.x, c.y), breaks)) continue;
                sum += (corner & 1 ? u : 1 - u) * (corner >> 1 ? v : 1 - v) * turn[far.index(c.x, c.y)];
            }
            if (const double length = glm::length(sum); length > 1e-9)
                doubled[i] = product(doubled[i], sum / length);
        }
    });
    soften(doubled, lattice, cut_links(breaks, lattice), near_guide, held,
           breaks.empty() ? kSoftRounds / 4 : kSoftRounds);
}

// The breathing of rows at every node, reckoned on a lattice half as fine: it changes slowly.
std::vector<double> closeness(const std::vector<glm::dvec2>& doubled, const Lattice& lattice, double row_mm,
                              const std::vector<Row>& breaks, const Region* ground) {
    Lattice half = lattice;
    half.step_mm = 2 * lattice.step_mm;
    half.columns = (lattice.columns + 1) / 2;
    half.rows = (lattice.rows + 1) / 2;
    std::vector<glm::dvec2> there(half.count());
    for (int y = 0; y < half.rows; ++y)
        for (int x = 0; x < half.columns; ++x) there[half.index(x, y)] = doubled[lattice.index(2 * x, 2 * y)];
    std::vector<std::uint8_t> counts;
    if (ground) {
        counts.resize(half.count());
        const EdgeIndex edge(*ground, row_mm);
        tbb::parallel_for(0, half.rows, [&](int y) {
            for (int x = 0; x < half.columns; ++x)
                counts[half.index(x, y)] = edge.inside_mm(half.at(x, y)) > -0.5 * row_mm;
        });
    }
    const auto breath = breathing(there, half, counts, cut_links(breaks, half));
    std::vector<double> out(lattice.count());
    for (int y = 0; y < lattice.rows; ++y)
        for (int x = 0; x < lattice.columns; ++x) {
            const int x1 = std::min((x + 1) / 2, half.columns - 1), y1 = std::min((y + 1) / 2, half.rows - 1);
            out[lattice.index(x, y)] =
                0.25 * (breath[half.index(x / 2, y / 2)] + breath[half.index(x1, y / 2)] +
                        breath[half.index(x / 2, y1)] + breath[half.index(x1, y1)]);
        }
    return out;
}

}  // namespace

std::vector<Flow> flow_from(const std::vector<Guide>& guides, const Lattice& lattice, double row_mm,
                            const std::vector<Row>& breaks, const Region* ground) {
    const GuideTree tree(guides, 0.7 * row_mm);
    const auto& sides = tree.sides();
    Lattice coarse = lattice;
    coarse.step_mm = kCoarse * lattice.step_mm;
    coarse.columns = lattice.columns / kCoarse + 2;
    coarse.rows = lattice.rows / kCoarse + 2;
    std::vector<std::uint32_t> nearest(coarse.count());
    tbb::parallel_for(0, coarse.rows, [&](int y) {
        for (int x = 0; x < coarse.columns; ++x) nearest[coarse.index(x, y)] = tree.nearest(coarse.at(x, y));
    });
    auto blend = blended(tree, guides.size(), coarse, row_mm, breaks);
    auto& doubled = blend.doubled;
    const auto& lead = blend.led;
    std::vector<float> held;
    for (const float l : lead) held.push_back(kLittle + kMuch * l);
    if (!breaks.empty()) std::fill(held.begin(), held.end(), 0.0f);  // the edge of a shade is nobody's wish
    std::vector<char> near_guide(coarse.count(), 0);
    for (std::size_t i = 0; i < coarse.count(); ++i) {
        if (nearest[i] == sides.size()) continue;
        const glm::dvec2 p =
            coarse.at(static_cast<int>(i) % coarse.columns, static_cast<int>(i) / coarse.columns);
        const glm::dvec2 middle = (sides[nearest[i]].a + sides[nearest[i]].b) / 2.0;
        near_guide[i] = glm::distance(p, middle) < 1.5 * row_mm && !parted(p, middle, breaks);
    }
    soften_far(doubled, coarse, breaks, near_guide, held);
    for (auto& d : doubled)
        if (d == glm::dvec2(0)) d = {1, 0};  // no guide at all
    const auto close = closeness(doubled, coarse, row_mm, breaks, ground);
    std::vector<Flow> flow(lattice.count());
    tbb::parallel_for(0, lattice.rows, [&](int y) {
        for (int x = 0; x < lattice.columns; ++x) {
            Flow& f = flow[lattice.index(x, y)];
            const glm::dvec2 p = lattice.at(x, y);
            const int cx = x / kCoarse;
            const int cy = y / kCoarse;
            const double u = static_cast<double>(x % kCoarse) / kCoarse;
            const double v = static_cast<double>(y % kCoarse) / kCoarse;
            glm::dvec2 sum{0};
            double breath = 0;
            f.distance_mm = 1e300;
            for (int corner = 0; corner < 4; ++corner) {
                const glm::ivec2 c(cx + (corner & 1), cy + (corner >> 1));
                const std::size_t i = coarse.index(c.x, c.y);
                const double share = (corner & 1 ? u : 1 - u) * (corner >> 1 ? v : 1 - v);
                breath += share * close[i];
                if (!parted(p, coarse.at(c.x, c.y), breaks)) sum += share * doubled[i];
                // The nearest side is next to the one nearest to one of the four coarse nodes.
                const auto middle = static_cast<std::ptrdiff_t>(nearest[i]);
                for (std::ptrdiff_t e = std::max<std::ptrdiff_t>(middle - 2, 0);
                     e <= std::min<std::ptrdiff_t>(middle + 2, static_cast<std::ptrdiff_t>(sides.size()) - 1);
                     ++e) {
                    const GuideSide& s = sides[static_cast<std::size_t>(e)];
                    const double d = distance_mm(p, s.a, s.b);
                    if (s.hint || d >= f.distance_mm || d > s.range_mm ||
                        parted(p, (s.a + s.b) / 2.0, breaks))
                        continue;
                    f.distance_mm = d;
                    f.round = std::isfinite(s.range_mm);
                    const glm::dvec2 side = s.b - s.a;
                    const double t = std::clamp(glm::dot(p - s.a, side) / glm::dot(side, side), 0.0, 1.0);
                    const glm::dvec2 r = p - s.a - t * side;
                    f.away = d > 1e-9 ? r / d : glm::dvec2(-side.y, side.x) / glm::length(side);
                }
            }
            if (sum == glm::dvec2(0)) sum = doubled[coarse.index(cx, cy)];
            f.along = halved_angle(sum);
            f.between = 1 - lead[coarse.index(cx, cy)];
            f.close = std::exp(breath);
        }
    });
    return flow;
}

}  // namespace rakelight
