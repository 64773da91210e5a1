// What a material costs, as written in the layout: "38 per kg" or "120 per m2".
#pragma once

#include "materials/optics/material.h"
#include "scene/text/yaml_reader.h"

namespace rakelight {

/// Reads the key `cost`; leaves `cost` as it was when the key is absent or bad, which is reported. No
/// currency: the artist knows which.
void read_cost(Section& in, Cost& cost);

}  // namespace rakelight
