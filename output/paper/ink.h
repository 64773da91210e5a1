// The inks of the sheets of swatches and boards: neutral greys, so that colours are judged by themselves.
#pragma once

#include "output/print/develop.h"

namespace rakelight {

inline constexpr double kSurroundLightness = 55;  ///< L* of the paper

namespace sheet {

/// Greys of L* 55, 8 and 97, as sRGB bytes.
extern const EncodedSrgb kPaper, kInk, kLight;

}  // namespace sheet

}  // namespace rakelight
