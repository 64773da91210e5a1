// The numbers of a photometric file, from the count of lamps to the last candela.
#pragma once

#include "scene/light/photometric_file.h"
#include "scene/light/photometric_words.h"

namespace rakelight {

/// Lamp geometry, angles and factors of TILT. Stops when anything was wrong.
void read_tilt(PhotometricNumbers& numbers, TiltFactors& tilt, ProblemList& problems);

/// The thirteen numbers, the angles and the candela; fills everything from `lamps` on.
/// \throws LayoutError with what is wrong so far once it makes no sense to read on.
void read_photometric_data(PhotometricNumbers& numbers, PhotometricFile& file, ProblemList& problems);

}  // namespace rakelight
