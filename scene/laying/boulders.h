// Accents: a few large stones in a field, the largest first, each where it is farthest from those before it
// (best of many candidates: Mitchell, "Spectrally optimal sampling for distribution ray tracing", SIGGRAPH
// 1991). Fields then flow round them as round stones set by hand. Three to seven to a field: common practice,
// no published source.
#pragma once

#include <vector>

#include "scene/geometry/region.h"
#include "scene/model/field.h"

namespace rakelight {

struct Layout;

/// The boulders of all fields. `regions`: the ground of each field (region_plan.h). Every stone lies within
/// its field, with room for its halo, for that of the edge, and for one row between them. \throws LayoutError
/// for every field without room for its boulders.
std::vector<PlacedStone> strewn_boulders(const Layout& layout, const std::vector<Region>& regions);

}  // namespace rakelight
