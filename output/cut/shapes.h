// What a machine cuts: the pieces of sectile fields as laid, half a joint smaller than drawn, and the line
// that the middle of the jet or blade runs along, half a kerf outside.
#pragma once

#include <string>
#include <vector>

#include "scene/geometry/region.h"
#include "scene/model/piece.h"

namespace rakelight {

struct Layout;

struct CutShape {
    std::string name;            ///< FIELD.NUMBER: the field's place in the layout, the piece's number in it
    std::uint32_t field = 0;     ///< index in `Layout::fields`
    std::uint32_t number = 0;    ///< within the field, as on the map
    std::uint32_t material = 0;  ///< index in `Layout::stock`
    double thickness_mm = 0;
    Region piece;            ///< as it is to be, panel coordinates (y up)
    Region path;             ///< middle of the kerf
    double length_mm = 0;    ///< of the path
    double corners_mm2 = 0;  ///< that a round jet leaves in hollow corners
};

/// The path round a piece for a kerf: the piece grown by half of it, corners round (true to 0.02 mm).
Region path_round(const Region& piece, double kerf_mm);

/// What a round jet on the path round a piece cannot reach: it stays on the piece, in hollow corners.
double left_in_corners_mm2(const Region& piece, double kerf_mm);

/// All pieces of sectile fields, in the order of the laying; none where no field is sectile.
std::vector<CutShape> cut_shapes(const Layout& layout, const Laying& laying, double kerf_mm);

}  // namespace rakelight
