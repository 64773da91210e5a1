#include "scene/geometry/lattice.h"

#include <cmath>

namespace rakelight {

Lattice lattice_over(const Box& box, double step_mm) {
    Lattice lattice;
    lattice.step_mm = step_mm;
    lattice.low_mm = box.low - 2 * step_mm;
    lattice.columns = static_cast<int>(std::ceil(box.size().x / step_mm)) + 5;
    lattice.rows = static_cast<int>(std::ceil(box.size().y / step_mm)) + 5;
    return lattice;
}

}  // namespace rakelight
