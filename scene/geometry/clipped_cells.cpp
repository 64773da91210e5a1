#include "scene/geometry/clipped_cells.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace rakelight {

namespace {

constexpr double kLeastShare = 0.15, kLeastWidth = 0.32;

bool wholly_inside(const Ring& cell, const EdgeIndex& edge) {
    const glm::dvec2 middle = centroid(cell);
    double radius = 0;
    for (const auto& p : cell) radius = std::max(radius, glm::distance(p, middle));
    return edge.inside_mm(middle) > radius;
}

}  // namespace

std::vector<Ring> clip_cells(std::vector<Ring>& cells, const Region& ground, const EdgeIndex& edge) {
    std::vector<Ring> others;
    for (Ring& cell : cells) {
        if (cell.size() < 3 || wholly_inside(cell, edge)) continue;
        Ring largest;
        double most = 0;
        for (Ring& part : intersect({{cell}}, ground).rings) {
            if (const double area = area_mm2(part); area > most) {
                most = area;
                std::swap(largest, part);
            }
            if (part.size() > 2 && area_mm2(part) > 0) others.push_back(std::move(part));
        }
        cell = std::move(largest);
    }
    return others;
}

bool is_sliver(const Ring& ring, double mean_mm2) {
    return ring.size() < 3 || area_mm2(ring) < kLeastShare * mean_mm2 ||
           grow({{ring}}, -kLeastWidth / 2 * std::sqrt(mean_mm2)).empty();
}

}  // namespace rakelight
