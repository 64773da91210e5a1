// How truly a lamp shows colours: the colour rendering index, Ra of eight soft test colours and the special
// indices of single ones, of which R9 (strong red) tells most about warm glass and oak under a lamp. Source:
// CIE 13.3-1995, Method of Measuring and Specifying Colour Rendering Properties of Light Sources.
#pragma once

#include <array>

#include "materials/colour/spectrum.h"

namespace rakelight {

inline constexpr int kTestColourCount = 14;

/// Reflectances of the test colours, 0..1.
extern const std::array<Spectrum, kTestColourCount> kTestColours;

/// 100 = as under the reference (a black body below 5000 K, daylight from there on); may be negative.
struct RenderingIndex {
    double general = 0;                              ///< Ra, mean of the first eight
    std::array<double, kTestColourCount> special{};  ///< R1 to R14
    double r9() const { return special[8]; }
};

/// The indices of a lamp. Beyond a distance from the reference of 0.0054 in CIE 1960 u, v the standard calls
/// them inexact; see correlated_temperature. \throws std::invalid_argument if the lamp gives no light.
RenderingIndex rendering_index(const Spectrum& lamp);

}  // namespace rakelight
