// The difference between two colours as the eye judges it: CIEDE2000.
// Source: ISO/CIE 11664-6, as set out by Sharma, Wu and Dalal, Color Res. Appl. 30 (2005) 21, whose equation
// numbers the code bears.
#pragma once

#include "materials/colour/colorimetry.h"

namespace rakelight {

/// Difference of two CIELAB colours with all parametric factors 1; about 1 is just noticeable side by side.
/// Symmetric.
double ciede2000(const Lab& first, const Lab& second);

}  // namespace rakelight
