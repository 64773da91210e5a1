// Reading of a mix that follows a picture.
#pragma once

#include "scene/reading/field/mix.h"

namespace rakelight {

/// Reads `{picture: FILE, from: [names], place: panel, field or [x, y, width], at most: {name: count},
/// diffusion: share, elsewhere: material}` into `field.picture` and, in even shares, `field.mix`. The picture
/// is sought beside the layout file and read at once, so that a bad one is reported with everything else.
void read_mix_picture(const YamlValue& mix, MixReading reading);

}  // namespace rakelight
