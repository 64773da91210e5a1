// Measured curves from a file of a spectrophotometer or a spreadsheet: lines of a wavelength in nanometres
// and one or more values, separated by commas, semicolons or tabs. Lines that start with # and one heading
// are skipped. Values are shares, or have a % sign.
#pragma once

#include <filesystem>
#include <vector>

#include "materials/colour/sampled_spectrum.h"

namespace rakelight {

/// The first `count` columns after the wavelength. Readings must rise, reach from 400 to 700 nm with a step
/// of 20 nm at most, and lie in 0..1. \throws LayoutError with what is wrong and where.
std::vector<SampledSpectrum> read_curves(const std::filesystem::path& path, std::size_t count);

}  // namespace rakelight
