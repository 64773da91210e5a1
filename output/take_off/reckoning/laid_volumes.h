// What the panel is made of by volume: pieces from their meshes, and between and under them grout and bed,
// each from what the pieces leave. Nothing here is a rule of thumb but how far the bed is squeezed up between
// the pieces when they are pressed in.
#pragma once

#include <vector>

#include "scene/geometry/region.h"
#include "scene/geometry/solid.h"
#include "scene/laying/laying.h"

namespace rakelight {

struct Layout;

/// The bed rises in the joints to a third of the pieces' height: common practice, no published source.
inline constexpr double kBedRise = 1.0 / 3;

/// What lies between and under the pieces of one field, and round the stones that stand in its grout.
struct FieldFilling {
    double ground_mm2 = 0;    ///< all that its grout regions cover, pieces included
    double joint_mm2 = 0;     ///< the part no piece covers
    double side_mm = 0;       ///< of a square with as much edge for its area as the pieces, in the mean
    double narrow_mm = 0;     ///< mean width of the pieces, the smaller of along and across their rows
    double surface_mm = 0;    ///< mean height of the joints' surface above the substrate
    double bed_mm = 0;        ///< mean height of the bed in the joints
    double bed_under_mm = 0;  ///< mean thickness of the bed under the pieces
    double grout_mm3 = 0;     ///< 0 where joints are left open
    double undercut_mm3 = 0;  ///< the part of it behind worn arrises, under leaning sides, round stones
    double bed_mm3 = 0;
    double bed_centre_mm = 0;  ///< height of its centre of gravity above the substrate
    double depth_mm() const { return surface_mm - bed_mm; }
};

struct LaidVolumes {
    std::vector<SolidMeasure> solids;        ///< one a piece, then one a stone
    std::vector<FieldFilling> fields;        ///< as in the layout
    std::vector<std::uint32_t> stone_field;  ///< in whose grout each stone stands
};

/// `regions`: of grout_regions. `bed_rise`: 0..0.9, share of the pieces' height.
LaidVolumes laid_volumes(const Layout& layout, const Laying& laying, const std::vector<Region>& regions,
                         double bed_rise = kBedRise);

}  // namespace rakelight
