// The outlines of the areas of a map. Every stretch of border between two areas is followed, smoothed and
// thinned once, and both areas use it: neighbours fit without gaps or slivers. The stairs of pixels are
// relaxed like a rubber band that may not leave its groove: each point moves towards the middle of its
// neighbours, never further than 0.7 pixels from the middle of its pixel side (Laplacian smoothing within
// bounds). Sharp corners of upright shapes, and those of the map, stay where they are.
#pragma once

#include <glm/glm.hpp>
#include <vector>

#include "scene/drawing/map_colours.h"

namespace rakelight {

/// How far a smoothed outline may lie from the middles of the pixel sides that it stands for, thinning
/// included.
inline constexpr double kMapTolerance_px = 0.7;

/// For each of `colours` labels its closed outlines, by the even-odd rule, in pixels from the map's lower
/// left corner, y up. Areas that touch at a corner only are parted there.
std::vector<std::vector<std::vector<glm::dvec2>>> map_outlines(const LabelMap& map, std::size_t colours);

}  // namespace rakelight
