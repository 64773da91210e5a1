#include "scene/opus/rods.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "materials/maths/hash.h"
#include "scene/geometry/edge_index.h"
#include "scene/geometry/point_grid.h"

namespace rakelight {

namespace {

constexpr double kOverlap = 0.9;  // rods are strewn a little too close, then moved apart
constexpr double kOutermost =
    1.5;  // of a rod's radius: how far its cell may reach where nothing is in the way

// The nearest points of two rods' middle lines, which do not cross.
std::pair<glm::dvec2, glm::dvec2> nearest(const Rod& a, const Rod& b) {
    const auto onto = [](const Rod& rod, const glm::dvec2& p) {
        return rod.at + rod.along * std::clamp(glm::dot(p - rod.at, rod.along), -rod.half_length_mm,
                                               rod.half_length_mm);
    };
    std::pair<glm::dvec2, glm::dvec2> best;
    double least = 1e300;
    for (const double t : {-1.0, 1.0}) {
        const glm::dvec2 p = a.at + t * a.half_length_mm * a.along, q = b.at + t * b.half_length_mm * b.along;
        for (const auto& pair : {std::pair{p, onto(b, p)}, std::pair{onto(a, q), q}})
            if (const double d = glm::distance(pair.first, pair.second); d < least) {
                least = d;
                best = pair;
            }
    }
    return best;
}

}  // namespace

std::vector<Rod> strewn_rods(const Region& ground, const Strewing& wish, std::uint64_t seed) {
    Rng rng(seed);
    const Box box = bounds(ground);
    const double reach = (1 + wish.uneven) * std::max(wish.length_mm, wish.width_mm);
    const EdgeIndex edge(ground, reach);
    PointGrid<std::size_t> near(reach, box.low);
    std::vector<Rod> rods;
    const double stones = box.size().x * box.size().y / (wish.length_mm * wish.width_mm);
    for (const bool small : {false, true}) {
        const auto throws = static_cast<int>((small ? 50 : 60) * stones) + 200;
        for (int t = 0; t < throws; ++t) {
            const glm::dvec2 p(rng.within(box.low.x, box.high.x), rng.within(box.low.y, box.high.y));
            const double size = (small ? wish.small : 1.0) * rng.within(1 - wish.uneven, 1 + wish.uneven);
            const double stray = rng.spread();
            const double radius = 0.5 * size * wish.width_mm;
            // Most throws fail on their middle alone.
            if (!near.all_near(p, 1, [&](std::size_t i) {
                    const Rod& other = rods[i];
                    const glm::dvec2 end = other.half_length_mm * other.along;
                    return distance_mm(p, other.at - end, other.at + end) >=
                           kOverlap * (radius + other.radius_mm);
                }))
                continue;
            const double off_edge = 0.84 * radius;
            if (edge.inside_mm(p) < off_edge) continue;
            const Rod rod{p, wish.direction(p, stray),
                          std::max(0.02, 0.5 * size * (wish.length_mm - wish.width_mm)), radius};
            const glm::dvec2 end = rod.half_length_mm * rod.along;
            if (edge.inside_mm(p + end) < off_edge || edge.inside_mm(p - end) < off_edge) continue;
            if (!near.all_near(p, 1, [&](std::size_t i) {
                    const auto [a, b] = nearest(rod, rods[i]);
                    return glm::distance(a, b) >= kOverlap * (radius + rods[i].radius_mm);
                }))
                continue;
            near.add(p, rods.size());
            rods.push_back(rod);
        }
    }
    return rods;
}

std::vector<Ring> cells_of(const std::vector<Rod>& rods, const Region& ground, double length_mm) {
    PointGrid<std::size_t> near(1.25 * length_mm, bounds(ground).low);
    for (std::size_t i = 0; i < rods.size(); ++i) near.add(rods[i].at, i);
    const EdgeIndex edge(ground, 2 * length_mm);
    std::vector<Ring> cells(rods.size());
    tbb::parallel_for(std::size_t{0}, rods.size(), [&](std::size_t i) {
        const Rod& rod = rods[i];
        const glm::dvec2 u = (rod.half_length_mm + kOutermost * rod.radius_mm) * rod.along;
        const glm::dvec2 v = kOutermost * rod.radius_mm * glm::dvec2(-rod.along.y, rod.along.x);
        Ring ring{rod.at - u - v, rod.at + u - v, rod.at + u + v, rod.at - u + v};
        near.each_near(rod.at, 2, [&](std::size_t j) {
            if (j == i) return;
            // Both sides ask for the same line, so it is worked out from the lower number's side.
            const bool first = i < j;
            const double far = 2 * (rod.half_length_mm + 1.5 * kOutermost * rod.radius_mm) +
                               rods[j].half_length_mm + rods[j].radius_mm;
            if (glm::distance(rod.at, rods[j].at) > far) return;
            const Rod &a = rods[first ? i : j], &b = rods[first ? j : i];
            const auto [p, q] = nearest(a, b);
            const double d = glm::distance(p, q);
            if (d < 1e-6) return;
            const glm::dvec2 across = (q - p) / d;
            const double line =
                glm::dot(p, across) + std::clamp((d + a.radius_mm - b.radius_mm) / 2, 0.15 * d, 0.85 * d);
            ring = first ? cut_by_line(ring, across, line) : cut_by_line(ring, -across, -line);
        });
        if (ring.size() < 3) return;
        if (edge.inside_mm(rod.at) < farthest_mm(ring, rod.at)) {
            Ring best;
            for (auto& part : intersect({{ring}}, ground).rings)
                if (area_mm2(part) > (best.empty() ? 0 : area_mm2(best))) best = std::move(part);
            ring = std::move(best);
        }
        cells[i] = std::move(ring);
    });
    return cells;
}

std::vector<Ring> settle_rods(std::vector<Rod>& rods, const Region& ground, double length_mm, int rounds) {
    auto cells = cells_of(rods, ground, length_mm);
    for (int round = 0; round < rounds; ++round) {
        for (std::size_t i = 0; i < rods.size(); ++i)
            if (cells[i].size() > 2) rods[i].at += 0.6 * (centroid(cells[i]) - rods[i].at);
        cells = cells_of(rods, ground, length_mm);
    }
    return cells;
}

}  // namespace rakelight
