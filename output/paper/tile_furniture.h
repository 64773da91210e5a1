// What every sheet of a drawing at 1:1 carries round its window: title, check bars, which way is up, which
// sheet it is, crosses to join it on.
#pragma once

#include <string>

#include "output/paper/tiled_drawing.h"

namespace rakelight::tile {

inline constexpr double kEdge_mm = 7;   ///< what a printer leaves white
inline constexpr double kHead_mm = 21;  ///< title, above the window
inline constexpr double kFoot_mm = 27;  ///< bar across, words, below it
inline constexpr double kSide_mm = 13;  ///< upright bar, left of it

/// Crosses in the middle of the overlaps, where two sheets share them, each with its place on the panel.
/// `shift_mm`: from the drawing to the sheet.
TracedLayer crosses(const TiledDrawing& drawing, const Box& window, double overlap_mm,
                    const glm::dvec2& shift_mm);

/// Which sheet of all this is; ends at `right_mm`.
TracedLayer sheet_plan(const SheetGrid& grid, int column, int row, const glm::dvec2& right_mm);

/// Title, bars, arrow and words round the window of a sheet. `which`: "sheet 1 of 4".
void add_furniture(Tracing& page, const TiledDrawing& drawing, const Box& window, const std::string& which);

/// "MIRRORED" across the window, pale, to lie below everything.
TracedLayer watermark(const Box& window);

}  // namespace rakelight::tile
