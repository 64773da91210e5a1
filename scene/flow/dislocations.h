// Where rows begin and end, in the phase of which rows are the whole turns (rows_of_flow.h): a dislocation,
// round which the phase winds once. A row that ends close to where another begins is one row that was broken:
// the two dislocations are of opposite sense and are led together, until they are none. What leads one is the
// phase of a pair (Volterra's construction, as of edge dislocations in crystals); relaxation then spreads the
// strain.
#pragma once

#include <span>
#include <vector>

#include "scene/flow/phase_relaxation.h"
#include "scene/geometry/lattice.h"

namespace rakelight {

/// A lattice square round which the phase winds once.
struct Dislocation {
    int x = 0, y = 0;  ///< its lower left node
    int sense = 1;     ///< +1 or -1, as seen by the normal of that node
};

/// All dislocations, row by row. Squares that a break cuts, and such in which rows themselves end in a point,
/// are none.
std::vector<Dislocation> dislocations(const PhaseLattice& phases);

/// How far apart, in rows, a row's end and another's beginning are still led together.
struct JoinReach {
    double along = 16, across = 5;
};

/// Leads dislocations of opposite sense together, nearest first, each of them once; the phase is to be
/// relaxed afterwards. `normal`: of the rows, at every node. \return how many pairs there were
int join_broken_rows(PhaseLattice& phases, const Lattice& lattice, std::span<const glm::dvec2> normal,
                     double row_mm, const JoinReach& reach = {});

}  // namespace rakelight
