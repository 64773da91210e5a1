// Lamps and skies by name or by temperature, as relative spectral power.
// Source: CIE 015:2018, Colorimetry, 4th edition; ISO/CIE 11664-2 for A and the daylights.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "materials/colour/spectrum.h"

namespace rakelight {

/// Second radiation constant in metre kelvin, the value CIE 015:2018 uses (ITS-90).
inline constexpr double kPlanckC2_m_k = 1.4388e-2;

/// A CIE illuminant by its short name, such as "D65" or "LED-B3" (upper case); nothing for a name not in
/// illuminant_names(). The scale is arbitrary.
std::optional<Spectrum> find_illuminant(std::string_view name);

/// Every name find_illuminant knows, in the order of the CIE tables.
std::vector<std::string> illuminant_names();

/// Planck's law, 100 at 560 nm.
/// \throws std::out_of_range outside 500 to 1 000 000 K.
Spectrum planckian(double temperature_k);

/// CIE daylight of a correlated colour temperature, about 100 at 560 nm. The factors M1 and M2 are rounded to
/// three decimals, which is how the tabulated D illuminants were made. (The nominal D65 lies at 6500 x 1.4388
/// / 1.4380 K.) \throws std::out_of_range outside 4000 to 25000 K, where the formula is not defined.
Spectrum daylight(double cct_k);

}  // namespace rakelight
