// What a gloss meter would read on a surface: light mirrored at 20, 60 or 85 degrees into a small window,
// against that of polished black glass. Source: ISO 2813:2014 and ASTM D523, which fix the standard glass (n
// = 1.567 is 100 units at every angle) and the windows of the instrument.
#pragma once

#include "materials/optics/surface.h"

namespace rakelight {

/// Angle from the normal. Below 10 units at 60 degrees the standard turns to 85, above 70 to 20.
enum class GlossAngle { deg20, deg60, deg85 };

/// Gloss units, 0 or more; diamond would read above 300. As in the instrument, what the body scatters into
/// the window counts too: about one unit for white material at 60 degrees. Light is CIE C, the detector CIE
/// V. Waviness (ripple) that is longer than the few millimetres a meter looks at is left out.
double gloss_units(const Surface& surface, GlossAngle angle);

/// What a smooth face of this index alone would read: the ratio of Fresnel's reflectances. `index` >= 1.
double smooth_gloss_units(double index, GlossAngle angle);

}  // namespace rakelight
