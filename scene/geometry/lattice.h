// A lattice of square cells over a box of the plane.
#pragma once

#include "scene/geometry/region.h"

namespace rakelight {

/// Values on a lattice of nodes over a box; node (x, y) is at `low_mm + step_mm * (x, y)`.
struct Lattice {
    glm::dvec2 low_mm{0};
    double step_mm = 1;
    int columns = 0;
    int rows = 0;

    /// How many nodes there are, and the place of one among them, row by row.
    std::size_t count() const { return static_cast<std::size_t>(columns) * static_cast<std::size_t>(rows); }
    std::size_t index(int x, int y) const {
        return static_cast<std::size_t>(y) * static_cast<std::size_t>(columns) + static_cast<std::size_t>(x);
    }
    /// Where a node lies, mm; also of nodes beyond the lattice.
    glm::dvec2 at(int x, int y) const { return low_mm + step_mm * glm::dvec2(x, y); }
};

/// A lattice that covers the box with two nodes to spare on each side.
Lattice lattice_over(const Box& box, double step_mm);

}  // namespace rakelight
