// What templates at 1:1 are drawn with: the panel's edge and origin, edges of areas that a knife follows,
// names where there is room for them.
#pragma once

#include "output/lay/drawing.h"
#include "output/paper/tiled_drawing.h"
#include "scene/model/panel.h"

namespace rakelight::marks {

/// Without the hairs that clipping leaves, and no finer than it can be cut.
Region tidy(const Region& region);

/// The edges of a region but for those along the panel's own edge, where no knife runs.
TracedShape inner_edges(const Region& region, const Panel& panel, const OnSheet& place);

TracedLayer origin_mark(const OnSheet& place);
TracedLayer panel_edge(const Panel& panel, const OnSheet& place);

/// Writes a name where the region is roomiest, unless there is no room for type of `least_mm`.
void add_name(TracedLayer& layer, const Region& region, const std::string& name, double least_mm,
              double most_mm, const OnSheet& place, const Rgb8& colour);

/// With its source, seen from behind where it is to be, and a word on paper where it is large.
TiledDrawing finished(TiledDrawing drawing, const Layout& layout, const LayingReport& report,
                      bool from_behind);

}  // namespace rakelight::marks
