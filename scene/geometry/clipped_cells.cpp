#include "scene/geometry/clipped_cells.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <utility>

namespace rakelight {

namespace {

constexpr double kLeastShare = 0.15, kLeastWidth = 0.32;

// The largest part of a cell that lies in the ground takes its place; the others are returned.
std::vector<Ring> clip(Ring& cell, const RegionTiles& ground, const EdgeIndex& edge) {
    std::vector<Ring> others;
    if (cell.size() < 3) return others;
    const glm::dvec2 middle = centroid(cell);
    double radius = 0;
    for (const auto& p : cell) radius = std::max(radius, glm::distance(p, middle));
    if (edge.inside_mm(middle) > radius) return others;
    Ring largest;
    double most = 0;
    for (Ring& part : intersect({{cell}}, ground.near(middle, radius)).rings) {
        if (const double area = area_mm2(part); area > most) {
            most = area;
            std::swap(largest, part);
        }
        if (part.size() > 2 && area_mm2(part) > 0) others.push_back(std::move(part));
    }
    cell = std::move(largest);
    return others;
}

}  // namespace

std::vector<Ring> clip_cells(std::vector<Ring>& cells, const RegionTiles& ground, const EdgeIndex& edge) {
    std::vector<std::vector<Ring>> others(cells.size());
    tbb::parallel_for(std::size_t{0}, cells.size(),
                      [&](std::size_t i) { others[i] = clip(cells[i], ground, edge); });
    std::vector<Ring> all;
    for (auto& of_cell : others) std::ranges::move(of_cell, std::back_inserter(all));
    return all;
}

bool is_sliver(const Ring& ring, double mean_mm2) {
    return ring.size() < 3 || area_mm2(ring) < kLeastShare * mean_mm2 ||
           grow({{ring}}, -kLeastWidth / 2 * std::sqrt(mean_mm2)).empty();
}

}  // namespace rakelight
