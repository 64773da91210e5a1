// Mask templates: for each grout zone, in its order, the line to cut, the line where tape ends, holes for
// proud stones, and as much of the pieces as it takes to lay the paper in its place. And the drawing of the
// whole panel to lay by: pieces, guides, zones.
#pragma once

#include "output/lay/report.h"
#include "output/paper/tiled_drawing.h"
#include "output/take_off/reckoning/take_off.h"

namespace rakelight {

struct Layout;

/// Air round a proud stone in the paper.
inline constexpr double kHoleAir_mm = 1.5;
/// Stones that rise less than this above the faces lie under the paper.
inline constexpr double kHoleFrom_mm = 2;

/// The template of one zone, face up or as seen from behind.
TiledDrawing zone_template(const Layout& layout, const Laying& laying, const LayingReport& report,
                           const TakeOff& take_off, std::size_t zone, bool from_behind);

/// The cartoon: the drawing of the whole panel at 1:1.
TiledDrawing laying_cartoon(const Layout& layout, const Laying& laying, const LayingReport& report,
                            const TakeOff& take_off, bool from_behind);

}  // namespace rakelight
