// The direction field of a field's rows, the andamento between the drawn guides: at every place a direction
// along which the rows run, blended from the directions of all guides by the inverse fourth power of
// distance, so that the nearest guide leads and the change from one to the next is smooth. Directions have no
// sign (a row runs both ways), so angles are doubled before they are added.
#pragma once

#include <vector>

#include "scene/flow/row.h"
#include "scene/geometry/lattice.h"

namespace rakelight {

/// A guide with the range over which it is heeded. `range_mm` infinite: everywhere. `across`: rows run at
/// right angles to it.
struct Guide {
    Row row;
    double range_mm;
    bool across = false;
    bool hint = false;  ///< rows take their direction from it, but none need run along it
};

/// What the flow is at a node: unit direction along the rows, distance to the nearest guide, and unit
/// direction away from it.
struct Flow {
    glm::dvec2 along{1, 0};
    glm::dvec2 away{0, 1};
    double distance_mm = 0;
    bool round = false;  ///< the nearest guide is heeded from close by only, as the edge of a stone
    float between = 1;   ///< 0 where one guide leads .. 1 where several do
    double close = 1;    ///< how many times closer than asked rows stand (breathing.h)
};

/// The flow at every node of `lattice`. `row_mm`: row pitch, the scale over which details of guides are
/// smoothed. `breaks`: lines through which no guide is seen (breaks.h); what lies in the shade of all guides
/// takes its direction from what lies beside it.
/// `ground`: where there are rows to be; null = everywhere.
std::vector<Flow> flow_from(const std::vector<Guide>& guides, const Lattice& lattice, double row_mm,
                            const std::vector<Row>& breaks = {}, const Region* ground = nullptr);

}  // namespace rakelight
