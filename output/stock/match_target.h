// What colour to match, as it is written on the command line.
#pragma once

#include <string_view>

#include "materials/colour/colorimetry.h"
#include "materials/optics/material.h"
#include "materials/optics/surface.h"

namespace rakelight {

/// "45,10,-20": L* 0..100, a* and b* -200..200. \throws RequestError.
Lab parse_lab(std::string_view text);

/// "#336699", with or without the #, as Lab under its own white, D65. \throws RequestError.
Lab parse_srgb(std::string_view text);

/// A material of the stock as laid, face on in diffuse light, the mirrored part left out: what a tint beside
/// it is compared with. `bed`: reflectance in contact behind it, met by translucent material only, as what
/// fills the joints at its `side`s. \throws std::invalid_argument when the material is out of range.
SampledSpectrum seen_as_laid(const Material& material, double thickness_mm, const SampledSpectrum& bed,
                             const SideWall& side = {});

}  // namespace rakelight
