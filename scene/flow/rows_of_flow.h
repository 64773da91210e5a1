// Rows that follow a flow. A phase is sought that grows by one turn per row pitch across the flow and stands
// at half a turn on the guides: rows lie where the phase is a whole number of turns. The phase is held as a
// unit complex number at every lattice node, spread outward from the guides and then relaxed until each node
// agrees with its neighbours; where rows draw apart or together the phase forms a dislocation, which is a row
// that begins or ends: the row birth and death of the trade. The energy is that of Knoeppel, Crane, Pinkall,
// Schroeder, "Stripe patterns on surfaces", ACM TOG 34(4), 2015; here on a plane lattice and by relaxation
// instead of an eigenvector.
#pragma once

#include <cstdint>
#include <vector>

#include "scene/flow/flow.h"

namespace rakelight {

/// Middle lines of the rows over the whole lattice, longest-lived first row by row. `row_mm`: pitch across
/// rows, several lattice steps long. `cut`: links that no row crosses and over which nothing agrees
/// (breaks.h), or empty.
std::vector<Row> rows_of_flow(const std::vector<Flow>& flow, const Lattice& lattice, double row_mm,
                              const std::vector<std::uint8_t>& cut = {});

}  // namespace rakelight
