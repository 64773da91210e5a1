// A material that looks as asked, from one of its family: of all curves that have the colour, the one whose
// change from the family member's is smallest and smoothest. Colour alone does not tell a curve (metamers),
// so what comes out is a guess. The change is of the logarithm of absorption (of K/S where opaque), as
// colorants of a family differ in strength; the nearest curve on the plane of right colours is the smoothness
// criterion of van Trigt 1990, J. Opt. Soc. Am. A 7, 891, with the family member in place of a flat curve.
#pragma once

#include "materials/colour/colorimetry.h"
#include "materials/optics/material.h"

namespace rakelight {

/// How a piece is to look face-on under D65, mirrored light left out.
struct WantedLook {
    Lab lab;                  ///< under D65
    double thickness_mm = 3;  ///< of translucent stuff, as is
    SampledSpectrum behind;   ///< reflectance in contact behind it
};

struct Looking {
    Material material;   ///< like the family member, with its curve changed and marked as guessed
    Lab lab;             ///< how it looks
    double delta_e = 0;  ///< CIEDE2000 between the two; 0.5 or less where the colour can be had
};

/// `like` has one layer and no leaf. \throws std::invalid_argument otherwise.
Looking looking_like(const Material& like, const WantedLook& look);

}  // namespace rakelight
