// Reading of reflectances and transmittances: one number for every wavelength, or a table [[nm, value], ...].
#pragma once

#include <optional>
#include <string>

#include "materials/colour/sampled_spectrum.h"
#include "scene/text/yaml_reader.h"

namespace rakelight {

/// Values at the bands, linear between the table's points and constant beyond its ends.
/// \return none when anything was wrong.
std::optional<SampledSpectrum> read_spectrum(const YamlValue& value, const std::string& key, Range range,
                                             ProblemList& problems);

}  // namespace rakelight
