#include "scene/flow.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>

namespace rakelight {

namespace {

struct Sample {
    glm::dvec2 at;
    glm::dvec2 doubled;  // unit vector at twice the angle of the guide
    double range_mm;
};

glm::dvec2 doubled_angle(const glm::dvec2& v) {
    const double l2 = glm::dot(v, v);
    return l2 > 0 ? glm::dvec2(v.x * v.x - v.y * v.y, 2 * v.x * v.y) / l2 : glm::dvec2(0);
}

glm::dvec2 halved_angle(const glm::dvec2& v) {
    const double turn = 0.5 * std::atan2(v.y, v.x);
    return {std::cos(turn), std::sin(turn)};
}

}  // namespace

Lattice lattice_over(const Box& box, double step_mm) {
    Lattice lattice;
    lattice.step_mm = step_mm;
    lattice.low_mm = box.low - 2 * step_mm;
    lattice.columns = static_cast<int>(std::ceil(box.size().x / step_mm)) + 5;
    lattice.rows = static_cast<int>(std::ceil(box.size().y / step_mm)) + 5;
    return lattice;
}

std::vector<Flow> flow_from(const std::vector<Guide>& guides, const Lattice& lattice, double row_mm) {
    std::vector<Sample> samples;
    struct Edge {
        glm::dvec2 a;
        glm::dvec2 b;
        double range_mm;
    };
    std::vector<Edge> edges;
    for (const auto& guide : guides) {
        const auto line = resampled(guide.row, 0.7 * row_mm);
        for (std::size_t i = 1; i < line.size(); ++i) {
            samples.push_back(
                {(line[i] + line[i - 1]) / 2.0, doubled_angle(line[i] - line[i - 1]), guide.range_mm});
            edges.push_back({line[i - 1], line[i], guide.range_mm});
        }
    }
    std::vector<Flow> flow(lattice.count());
    // Directions vary slowly: blend them on a lattice three times coarser and interpolate.
    Lattice coarse = lattice;
    coarse.step_mm = 3 * lattice.step_mm;
    coarse.columns = lattice.columns / 3 + 2;
    coarse.rows = lattice.rows / 3 + 2;
    std::vector<glm::dvec2> doubled(coarse.count(), glm::dvec2(0));
    std::vector<std::uint32_t> nearest(coarse.count(), 0);
    tbb::parallel_for(0, coarse.rows, [&](int y) {
        for (int x = 0; x < coarse.columns; ++x) {
            const glm::dvec2 p = coarse.at(x, y);
            glm::dvec2 sum{0};
            double least = 1e300;
            for (std::size_t i = 0; i < samples.size(); ++i) {
                const auto& s = samples[i];
                const glm::dvec2 r = p - s.at;
                const double d2 = glm::dot(r, r);
                if (d2 > s.range_mm * s.range_mm) continue;
                const double soft = d2 + 0.3 * row_mm * row_mm;
                double weight = 1 / (soft * soft);
                if (std::isfinite(s.range_mm)) {
                    const double fade = 1 - d2 / (s.range_mm * s.range_mm);
                    weight *= fade * fade;
                }
                sum += weight * s.doubled;
                if (d2 < least) {
                    least = d2;
                    nearest[coarse.index(x, y)] = static_cast<std::uint32_t>(i);
                }
            }
            const double length = glm::length(sum);
            doubled[coarse.index(x, y)] = length > 0 ? sum / length : glm::dvec2(1, 0);
        }
    });
    tbb::parallel_for(0, lattice.rows, [&](int y) {
        for (int x = 0; x < lattice.columns; ++x) {
            Flow& f = flow[lattice.index(x, y)];
            const int cx = x / 3;
            const int cy = y / 3;
            const double u = (x % 3) / 3.0;
            const double v = (y % 3) / 3.0;
            const glm::dvec2 low =
                glm::mix(doubled[coarse.index(cx, cy)], doubled[coarse.index(cx + 1, cy)], u);
            const glm::dvec2 high =
                glm::mix(doubled[coarse.index(cx, cy + 1)], doubled[coarse.index(cx + 1, cy + 1)], u);
            f.along = halved_angle(glm::mix(low, high, v));
            // The nearest edge is next to the nearest sample of one of the four coarse nodes.
            const glm::dvec2 p = lattice.at(x, y);
            f.distance_mm = 1e300;
            for (const auto c : {coarse.index(cx, cy), coarse.index(cx + 1, cy), coarse.index(cx, cy + 1),
                                 coarse.index(cx + 1, cy + 1)}) {
                const auto middle = static_cast<std::ptrdiff_t>(nearest[c]);
                for (std::ptrdiff_t i = std::max<std::ptrdiff_t>(middle - 2, 0);
                     i <= std::min<std::ptrdiff_t>(middle + 2, static_cast<std::ptrdiff_t>(edges.size()) - 1);
                     ++i) {
                    const Edge& e = edges[static_cast<std::size_t>(i)];
                    const double d = distance_mm(p, e.a, e.b);
                    if (d >= f.distance_mm || d > e.range_mm) continue;
                    f.distance_mm = d;
                    const glm::dvec2 side = e.b - e.a;
                    const double t = std::clamp(glm::dot(p - e.a, side) / glm::dot(side, side), 0.0, 1.0);
                    const glm::dvec2 r = p - e.a - t * side;
                    f.away = d > 1e-9 ? r / d : glm::dvec2(-side.y, side.x) / glm::length(side);
                }
            }
        }
    });
    return flow;
}

}  // namespace rakelight
