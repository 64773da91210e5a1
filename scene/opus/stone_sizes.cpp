#include "scene/opus/stone_sizes.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "scene/geometry/clipped_cells.h"

namespace rakelight {

namespace {

// The first of some places within the ground where a disc overlaps no other by much, else the freest.
glm::dvec2 place_for(double radius_mm, const std::vector<Disc>& discs, const PointGrid<std::size_t>& near,
                     const Box& box, const EdgeIndex& edge, Rng& rng) {
    constexpr int kTries = 200;
    glm::dvec2 freest = (box.low + box.high) / 2.0;
    double most_mm = -1e300;
    for (int t = 0; t < kTries; ++t) {
        const glm::dvec2 p(rng.within(box.low.x, box.high.x), rng.within(box.low.y, box.high.y));
        double free_mm = edge.inside_mm(p) - 0.45 * radius_mm;
        near.each_near(p, 1, [&](std::size_t i) {
            free_mm =
                std::min(free_mm, glm::distance(p, discs[i].at) - 0.86 * (radius_mm + discs[i].radius_mm));
        });
        if (free_mm <= most_mm) continue;
        most_mm = free_mm;
        freest = p;
        if (free_mm >= 0) break;
    }
    return freest;
}

}  // namespace

std::vector<double> sizes_that_fill(double ground_mm2, const glm::dvec2& sizes_mm, double joint_mm) {
    const double low = sizes_mm.x + joint_mm, high = sizes_mm.y + joint_mm;
    const double mean_mm2 = (low * low + low * high + high * high) / 3;
    const auto count = static_cast<std::size_t>(std::max(1.0, std::round(ground_mm2 / mean_mm2)));
    std::vector<double> sizes;
    for (std::size_t i = 0; i < count; ++i)
        sizes.push_back(
            std::lerp(sizes_mm.y, sizes_mm.x, (static_cast<double>(i) + 0.5) / static_cast<double>(count)));
    return sizes;
}

std::vector<Disc> discs_of_sizes(const Region& ground, const glm::dvec2& sizes_mm, double joint_mm,
                                 Rng& rng) {
    const double ground_mm2 = area_mm2(ground);
    const std::vector<double> sizes = sizes_that_fill(ground_mm2, sizes_mm, joint_mm);
    double sum_mm2 = 0;
    for (const double s : sizes) sum_mm2 += (s + joint_mm) * (s + joint_mm);
    const double fit = std::sqrt(ground_mm2 / sum_mm2 / std::numbers::pi);
    const double largest_mm = fit * (sizes.front() + joint_mm);
    const Box box = bounds(ground);
    const EdgeIndex edge(ground, 2 * largest_mm);
    PointGrid<std::size_t> near(2 * largest_mm, box.low);
    std::vector<Disc> discs;
    for (const double s : sizes) {
        const double radius = fit * (s + joint_mm);
        const glm::dvec2 p = place_for(0.85 * radius, discs, near, box, edge, rng);
        near.add(p, discs.size());
        discs.push_back({p, 0.85 * radius, radius});
    }
    return discs;
}

void settle_to_sizes(std::vector<Disc>& discs, const RegionTiles& ground, double mean_radius_mm,
                     const EdgeIndex& edge) {
    constexpr int kRounds = 40;
    // Ground gained for weight given, in a diagram of regular hexagons: half the sum of edge over distance.
    constexpr double kGain = std::numbers::sqrt3;
    for (int round = 0; round < kRounds; ++round) {
        auto cells = power_cells(discs, mean_radius_mm);
        clip_cells(cells, ground, edge);
        double least_mm2 = 1e300;
        std::vector<double> weight_mm2;
        for (std::size_t i = 0; i < discs.size(); ++i) {
            const double wanted = std::numbers::pi * discs[i].wanted_radius_mm * discs[i].wanted_radius_mm;
            const double short_by = wanted - (cells[i].size() > 2 ? area_mm2(cells[i]) : 0);
            weight_mm2.push_back(discs[i].radius_mm * discs[i].radius_mm + 0.6 * short_by / kGain);
            least_mm2 = std::min(least_mm2, weight_mm2.back());
            if (cells[i].size() > 2)
                discs[i].at += (round < kRounds / 2 ? 0.7 : 0.2) * (centroid(cells[i]) - discs[i].at);
        }
        // Only differences of weights count.
        for (std::size_t i = 0; i < discs.size(); ++i)
            discs[i].radius_mm = std::sqrt(weight_mm2[i] - std::min(least_mm2, 0.0));
    }
}

}  // namespace rakelight
