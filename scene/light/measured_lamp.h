// A lamp that shines as a photometric file says.
#pragma once

#include "scene/light/emitter.h"
#include "scene/model/lamp.h"

namespace rakelight {

/// Gives the emitter, faced along its aim, the body and the distribution of `lamp.measured`. A flat opening
/// that sends light level or backward gets sides a tenth as high as its shorter side: light must come from
/// somewhere. A point becomes a disc of `lamp.width_mm`, or a sphere if it shines backward.
/// \return the greatest candela: the lamp's candela, or by its lumen, or as in the file; by TILT as well.
double shine_as_measured(Emitter& e, const Lamp& lamp);

}  // namespace rakelight
