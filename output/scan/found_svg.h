// A found drawing as SVG, which layouts read like any other and vector editors open.
#pragma once

#include <string>

#include "output/scan/found_drawing.h"

namespace rakelight {

/// A group for each region, `region-1` the largest: its outline, with `spot COLOUR` as label where a felt-tip
/// has marked it, and its guides. `name`: its title. The same drawing
/// gives the same bytes.
std::string found_svg(const FoundDrawing& drawing, const PagePlace& place, const std::string& name);

/// What the SVG says in its metadata of how it was found, for the picture of it.
struct HowFound {
    PagePlace place;
    double px_per_mm = 0;
    std::vector<Ring> closings_mm;  ///< from the paper's lower left corner, y up
};
/// Empty corners and gaps when there is none, or not ours.
HowFound how_found(const std::string& svg);

}  // namespace rakelight
