// Reading of a mix that changes from place to place.
#pragma once

#include "scene/reading/field/mix.h"

namespace rakelight {

/// Reads `{shades: ..., along/across/away from/towards: ..., over: [..] or at: [..], blend: ..}` into
/// `field.shift` and, as mean shares, `field.mix`.
void read_mix_shift(const YamlValue& mix, MixReading reading);

}  // namespace rakelight
