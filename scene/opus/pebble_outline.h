// The outline of a water-worn stone that fits a given cell: the cell's outline with its quick turns worn off.
#pragma once

#include "scene/geometry/region.h"

namespace rakelight {

/// A rounded outline within the counter-clockwise `cell`: the cell's outline averaged along itself with a
/// Gaussian of `wear` (0.01..0.15) of four times the root of its area, then grown or shrunk about its middle
/// until it just touches the cell. More wear, rounder and smaller. Empty when the middle of the cell lies
/// outside it.
Ring pebble_outline(const Ring& cell, double wear);

}  // namespace rakelight
