// The published tables behind illuminants.h. Each family of numbers has its own .cpp, named after this file,
// with its source. Lamps are in relative spectral power: only ratios within one table mean anything.
#pragma once

#include <array>

#include "materials/colour/spectrum.h"

namespace rakelight {

/// Components S0, S1, S2 of daylight, 380 to 780 nm every 10 nm.
extern const std::array<double, 41> kDaylightS0;
extern const std::array<double, 41> kDaylightS1;
extern const std::array<double, 41> kDaylightS2;

extern const Spectrum kIlluminantC;
extern const Spectrum kIlluminantF2;
extern const Spectrum kIlluminantF7;
extern const Spectrum kIlluminantF11;

extern const Spectrum kLedB1;
extern const Spectrum kLedB2;
extern const Spectrum kLedB3;
extern const Spectrum kLedB4;
extern const Spectrum kLedB5;
extern const Spectrum kLedBH1;
extern const Spectrum kLedRGB1;
extern const Spectrum kLedV1;
extern const Spectrum kLedV2;

}  // namespace rakelight
