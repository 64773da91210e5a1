#include "scene/opus/flow.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "scene/opus/breaks.h"
#include "scene/opus/guide_tree.h"

namespace rakelight {

namespace {

constexpr int kCoarse = 3;         // directions vary slowly: they are blended on a lattice so much coarser
constexpr int kShadeRounds = 200;  // rounds of averaging that take directions round the ends of breaks
constexpr int kBlock = 8;          // coarse nodes a side that look at the guides together

glm::dvec2 halved_angle(const glm::dvec2& v) {
    const double turn = 0.5 * std::atan2(v.y, v.x);
    return {std::cos(turn), std::sin(turn)};
}

// Unit vectors at twice the angle of the rows, at every node; zero where breaks hide all guides.
std::vector<glm::dvec2> blended(const GuideTree& tree, const Lattice& lattice, double row_mm,
                                const std::vector<Row>& breaks) {
    std::vector<glm::dvec2> doubled(lattice.count(), glm::dvec2(0));
    const int across = (lattice.columns + kBlock - 1) / kBlock, up = (lattice.rows + kBlock - 1) / kBlock;
    tbb::parallel_for(0, across * up, [&](int block) {
        const int x0 = block % across * kBlock, y0 = block / across * kBlock;
        const int x1 = std::min(x0 + kBlock, lattice.columns), y1 = std::min(y0 + kBlock, lattice.rows);
        const glm::dvec2 low = lattice.at(x0, y0), high = lattice.at(x1 - 1, y1 - 1);
        std::vector<GuideStretch> seen;
        tree.seen_from((low + high) / 2.0, glm::distance(low, high) / 2, seen);
        for (int y = y0; y < y1; ++y)
            for (int x = x0; x < x1; ++x) {
                const glm::dvec2 p = lattice.at(x, y);
                glm::dvec2 sum{0};
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
                }
                const double length = glm::length(sum);
                if (length > 0) doubled[lattice.index(x, y)] = sum / length;
            }
    });
    return doubled;
}

// Averages directions with their neighbours' on the same side of all breaks, but near guides: the edge of a
// shade, which no drawn line explains, becomes a smooth turn.
void soften_shades(std::vector<glm::dvec2>& doubled, const Lattice& lattice,
                   const std::vector<std::uint8_t>& cut, const std::vector<char>& near_guide) {
    for (int round = 0; round < kShadeRounds; ++round) {
        const auto before = doubled;
        tbb::parallel_for(0, lattice.rows, [&](int y) {
            for (int x = 0; x < lattice.columns; ++x) {
                const std::size_t i = lattice.index(x, y);
                if (near_guide[i]) continue;
                glm::dvec2 sum = before[i];
                if (x + 1 < lattice.columns && !(cut[i] & 1u)) sum += before[i + 1];
                if (x > 0 && !(cut[i - 1] & 1u)) sum += before[i - 1];
                const auto row = static_cast<std::size_t>(lattice.columns);
                if (y + 1 < lattice.rows && !(cut[i] & 2u)) sum += before[i + row];
                if (y > 0 && !(cut[i - row] & 2u)) sum += before[i - row];
                if (const double length = glm::length(sum); length > 1e-9) doubled[i] = sum / length;
            }
        });
    }
}

}  // namespace

std::vector<Flow> flow_from(const std::vector<Guide>& guides, const Lattice& lattice, double row_mm,
                            const std::vector<Row>& breaks) {
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
    auto doubled = blended(tree, coarse, row_mm, breaks);
    if (!breaks.empty()) {
        std::vector<char> near_guide(coarse.count(), 0);
        for (std::size_t i = 0; i < coarse.count(); ++i) {
            if (nearest[i] == sides.size()) continue;
            const glm::dvec2 p =
                coarse.at(static_cast<int>(i) % coarse.columns, static_cast<int>(i) / coarse.columns);
            const glm::dvec2 middle = (sides[nearest[i]].a + sides[nearest[i]].b) / 2.0;
            near_guide[i] = glm::distance(p, middle) < 1.5 * row_mm && !parted(p, middle, breaks);
        }
        soften_shades(doubled, coarse, cut_links(breaks, coarse), near_guide);
    }
    for (auto& d : doubled)
        if (d == glm::dvec2(0)) d = {1, 0};  // no guide at all
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
            f.distance_mm = 1e300;
            for (int corner = 0; corner < 4; ++corner) {
                const glm::ivec2 c(cx + (corner & 1), cy + (corner >> 1));
                const std::size_t i = coarse.index(c.x, c.y);
                if (!parted(p, coarse.at(c.x, c.y), breaks))
                    sum += (corner & 1 ? u : 1 - u) * (corner >> 1 ? v : 1 - v) * doubled[i];
                // The nearest side is next to the one nearest to one of the four coarse nodes.
                const auto middle = static_cast<std::ptrdiff_t>(nearest[i]);
                for (std::ptrdiff_t e = std::max<std::ptrdiff_t>(middle - 2, 0);
                     e <= std::min<std::ptrdiff_t>(middle + 2, static_cast<std::ptrdiff_t>(sides.size()) - 1);
                     ++e) {
                    const GuideSide& s = sides[static_cast<std::size_t>(e)];
                    const double d = distance_mm(p, s.a, s.b);
                    if (d >= f.distance_mm || d > s.range_mm || parted(p, (s.a + s.b) / 2.0, breaks))
                        continue;
                    f.distance_mm = d;
                    const glm::dvec2 side = s.b - s.a;
                    const double t = std::clamp(glm::dot(p - s.a, side) / glm::dot(side, side), 0.0, 1.0);
                    const glm::dvec2 r = p - s.a - t * side;
                    f.away = d > 1e-9 ? r / d : glm::dvec2(-side.y, side.x) / glm::length(side);
                }
            }
            if (sum == glm::dvec2(0)) sum = doubled[coarse.index(cx, cy)];
            f.along = halved_angle(sum);
        }
    });
    return flow;
}

}  // namespace rakelight
