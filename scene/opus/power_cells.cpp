#include "scene/opus/power_cells.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>

#include "scene/geometry/clipped_cells.h"

namespace rakelight {

PointGrid<std::size_t> grid_of(const std::vector<Disc>& discs, double cell_mm) {
    Box box;
    for (const auto& d : discs) box.add(d.at);
    PointGrid<std::size_t> grid(cell_mm, box.low);
    for (std::size_t i = 0; i < discs.size(); ++i) grid.add(discs[i].at, i);
    return grid;
}

std::vector<Ring> power_cells(const std::vector<Disc>& discs, double mean_radius_mm) {
    std::vector<Ring> cells(discs.size());
    double least_mm2 = 1e300, most_mm2 = 0;
    for (const Disc& d : discs) {
        least_mm2 = std::min(least_mm2, d.radius_mm * d.radius_mm);
        most_mm2 = std::max(most_mm2, d.radius_mm * d.radius_mm);
    }
    const double reach = 4 * mean_radius_mm;
    const auto near = grid_of(discs, 2.5 * mean_radius_mm);
    tbb::parallel_for(std::size_t{0}, discs.size(), [&](std::size_t i) {
        const glm::dvec2 p = discs[i].at;
        Ring ring{p + glm::dvec2(-reach, -reach), p + glm::dvec2(reach, -reach), p + glm::dvec2(reach, reach),
                  p + glm::dvec2(-reach, reach)};
        double far2 = 2 * reach * reach;  // a line beyond the farthest corner cuts nothing
        // What lies beyond this cannot reach a corner.
        const auto may_cut = [&](double mm) {
            return mm - (most_mm2 - least_mm2) / mm < 2 * std::sqrt(far2);
        };
        near.outwards(p, 3, may_cut, [&](std::size_t j) {
            if (j == i || ring.empty()) return;
            const glm::dvec2 r = discs[j].at - p;
            const double along = (glm::dot(r, r) + discs[i].radius_mm * discs[i].radius_mm -
                                  discs[j].radius_mm * discs[j].radius_mm) /
                                 2;
            if (along > 0 && along * along >= far2 * glm::dot(r, r)) return;
            ring = cut_by_line(ring, r, glm::dot(p, r) + along);
            far2 = 0;
            for (const auto& q : ring) far2 = std::max(far2, glm::dot(q - p, q - p));
        });
        cells[i] = std::move(ring);
    });
    return cells;
}

}  // namespace rakelight
