// A map of flat colours, one a field, as a drawing: what a scanned and flooded cartoon becomes.
#pragma once

#include <filesystem>
#include <vector>

#include "scene/drawing/map_colours.h"
#include "scene/model/drawing.h"

namespace rakelight {

struct MapOptions {
    double width_mm = 0;   ///< of the whole map, > 0
    double specks_mm = 3;  ///< patches smaller than a square of this side go to their neighbours
};

/// One path a colour, called by its name, with all its areas and their holes; none for a colour that the map
/// does not show. \throws LayoutError as read_map_colours does.
Drawing read_colour_map(const std::filesystem::path& path, const std::vector<MapColour>& colours,
                        const MapOptions& options);

}  // namespace rakelight
