// The andamento between the drawn guides: at every place a direction along which the rows run, blended from
// the directions of all guides by the inverse fourth power of distance, so that the nearest guide leads and
// the change from one to the next is smooth. Directions have no sign (a row runs both ways), so angles are
// doubled before they are added.
#pragma once

#include <vector>

#include "scene/region.h"
#include "scene/row.h"

namespace rakelight {

/// A guide with the range over which it is heeded. `range_mm` infinite: everywhere. `across`: rows run at
/// right angles to it.
struct Guide {
    Row row;
    double range_mm;
    bool across = false;
};

/// Values on a lattice of nodes over a box; node (x, y) is at `low_mm + step_mm * (x, y)`.
struct Lattice {
    glm::dvec2 low_mm{0};
    double step_mm = 1;
    int columns = 0;
    int rows = 0;

    std::size_t count() const { return static_cast<std::size_t>(columns) * static_cast<std::size_t>(rows); }
    std::size_t index(int x, int y) const {
        return static_cast<std::size_t>(y) * static_cast<std::size_t>(columns) + static_cast<std::size_t>(x);
    }
    glm::dvec2 at(int x, int y) const { return low_mm + step_mm * glm::dvec2(x, y); }
};

/// A lattice that covers the box with two nodes to spare on each side.
Lattice lattice_over(const Box& box, double step_mm);

/// What the flow is at a node: unit direction along the rows, distance to the nearest guide, and unit
/// direction away from it.
struct Flow {
    glm::dvec2 along{1, 0};
    glm::dvec2 away{0, 1};
    double distance_mm = 0;
};

/// The flow at every node of `lattice`. `row_mm`: row pitch, the scale over which details of guides are
/// smoothed. `breaks`: lines through which no guide is seen (breaks.h); what lies in the shade of all guides
/// takes its direction from what lies beside it.
std::vector<Flow> flow_from(const std::vector<Guide>& guides, const Lattice& lattice, double row_mm,
                            const std::vector<Row>& breaks = {});

}  // namespace rakelight
