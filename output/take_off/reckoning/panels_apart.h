// What hangs by itself: each panel of a diptych with its own weight, loads and struts. Of an undivided panel
// the one there is.
#pragma once

#include <vector>

#include "output/take_off/reckoning/hanging_load.h"
#include "scene/model/panel_spans.h"

namespace rakelight {

/// One panel of the work.
struct PanelApart {
    PanelSpan span;
    std::size_t pieces = 0;
    std::size_t stones = 0;
    Weighing weighing;
    HangingLoad load;
    int struts = 0;
};

/// From left to right. Pieces and stones are each weighed with the panel that they stand on; bed and grout of
/// a field are shared out by the ground and by the joints that it has on each, so that the panels together
/// weigh what the work does. `regions`: of grout_regions.
std::vector<PanelApart> panels_apart(const Layout& layout, const Laying& laying, const LaidVolumes& volumes,
                                     const std::vector<Region>& regions, const HangingWishes& wishes);

/// The one that asks most of its fixings. Precondition: at least one.
const PanelApart& heaviest(const std::vector<PanelApart>& panels);

}  // namespace rakelight
