// A slab as DXF R12 in ASCII, which every machine reads: closed polylines of straight segments, in
// millimetres. As the published DXF reference of release 12 says (sections HEADER, TABLES, ENTITIES; group
// codes).
#pragma once

#include <string>

#include "output/cut/spread.h"

namespace rakelight {

/// Layers: CUT, the paths, inner ones first; NAMES, what to write on the pieces, not to be cut; SLAB, its
/// edge. Lines end in CR LF. The format has no units of its own: one is a millimetre.
std::string slab_dxf(const CutSlab& slab, const std::vector<CutShape>& shapes, const glm::dvec2& slab_mm);

}  // namespace rakelight
