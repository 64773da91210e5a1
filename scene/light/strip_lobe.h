// Strips of light and wall-washers: along its length a strip fades as a matte line does, across it as its
// reflector makes it, with the beam perhaps turned aside from where the opening faces.
#pragma once

#include "scene/light/emitter.h"
#include "scene/model/lamp.h"

namespace rakelight {

/// Gives a rectangle, faced where its opening looks, the lobe of `lamp.beam_deg` and `field_deg` across it,
/// aimed at `lamp.aim_mm`. When the opening faces elsewhere the strip lies square to both directions.
/// \return the greatest candela.
double shine_as_strip(Emitter& e, const Lamp& lamp);

/// Angle from where the opening faces to where the beam goes, degrees; 0 when they are one.
double slant_deg(const Lamp& lamp);

}  // namespace rakelight
