// Seams: where the rows of two guides meet at an angle. Asked to be mitred, they are one clean line as far
// from the one guide as from the other, so that a row of the one meets its like of the other there; else rows
// turn and are born and lost between the two. The line is a piece of the guides' Voronoi diagram.
#pragma once

#include <vector>

#include "scene/flow/row.h"
#include "scene/geometry/region.h"
#include "scene/model/field.h"

namespace rakelight {

/// Rows that meet at less run on and fork: a mitre would cut them to splinters. Common practice, no published
/// source.
inline constexpr double kLeastMitre_deg = 40;

/// Lines through `ground` on which two of a field's guides are equally near and run at `kLeastMitre_deg` or
/// more to one another; none unless the field mitres its seams.
std::vector<Row> seams_of(const Field& field, const Region& ground);

/// All lines at which rows of a field end: the breaks that were drawn, and its seams.
std::vector<Row> breaks_of(const Field& field, const Region& ground);

}  // namespace rakelight
