// Coats of thin films, as a layout file writes them: `coating: {kind: iridised, nm: 380}`.
#pragma once

#include "materials/optics/material.h"
#include "scene/text/yaml_reader.h"

namespace rakelight {

/// Reads `coating`. A kind is films of usual indices: iridised, one of tin oxide; dichroic, quarter waves of
/// titanium and silicon oxide; pearl, plates of aragonite between skins of protein. Its unevenness is put
/// among the markings.
void read_coating(Section& in, Material& material);

}  // namespace rakelight
