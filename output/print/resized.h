// A print at another size.
#pragma once

#include "output/print/develop.h"

namespace rakelight {

/// The print in so many pixels: itself where that is its size, else by a filter of Mitchell and Netravali
/// (1988, B = C = 1/3), in the encoded values that it has.
Print resized(const Print& print, int width_px, int height_px);

}  // namespace rakelight
