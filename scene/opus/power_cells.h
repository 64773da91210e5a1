// A power diagram (Aurenhammer 1987): the plane shared out among discs, each point to the disc to whose rim
// its tangent is shortest. Cells are convex and meet by threes.
#pragma once

#include <vector>

#include "scene/geometry/point_grid.h"
#include "scene/geometry/region.h"

namespace rakelight {

struct Disc {
    glm::dvec2 at;
    double radius_mm;
    double wanted_radius_mm;  ///< of a disc as large as its cell should be
};

/// Discs by their middles.
PointGrid<std::size_t> grid_of(const std::vector<Disc>& discs, double cell_mm);

/// The cell of each, counter-clockwise, within a square about its middle of 4 `mean_radius_mm` each way;
/// empty where a disc gets nothing.
std::vector<Ring> power_cells(const std::vector<Disc>& discs, double mean_radius_mm);

}  // namespace rakelight
