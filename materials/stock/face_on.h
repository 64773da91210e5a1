// The colour of a laid piece face-on, as a plain reflectance: lit from everywhere and seen square on (or lit
// square on and seen from everywhere: the same by Helmholtz reciprocity), what the face mirrors left out.
// Metal leaf counts as body.
#pragma once

#include "materials/optics/material.h"
#include "materials/optics/surface.h"

namespace rakelight {

/// Per band, 0..1. `backing`: reflectance in contact behind it, met by translucent material only, as `side`,
/// what fills the joints. `tone`: factor on the body's absorption, 1 = the usual piece. Slag: the mean of its
/// face with the glassy patches. \throws std::invalid_argument when the material is out of range.
SampledSpectrum face_on_reflectance(const Material& material, double thickness_mm,
                                    const SampledSpectrum& backing, double tone, InterfaceTables& tables,
                                    const SideWall& side = {});

}  // namespace rakelight
