// From any brightness to what a print can show: straight up to four fifths of white, then a soft shoulder.
// Only the luminance is bent; a colour that no longer fits is brought towards grey of its own luminance, so
// hues stay and glints end in white.
#pragma once

#include "materials/colour/colorimetry.h"

namespace rakelight {

/// Luminance up to which the print is true to scale, white = 1.
inline constexpr double kStraightUpTo = 0.8;

/// Printed luminance, [0, 1), of a luminance >= 0 (white of a matte print = 1). Straight to `kStraightUpTo`,
/// then an exponential approach to 1 with no kink. Rises throughout.
double shoulder(double luminance);

/// The printed colour, every component in [0, 1]. Light of no or negative luminance, or not a number, prints
/// black.
LinearRgb print_colour(const LinearRgb& light);

}  // namespace rakelight
