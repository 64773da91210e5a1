// Colour as numbers, and the ways from one kind to another: tristimulus values, chromaticity, CIELAB, display
// RGB, and the same colour for an eye adapted to another white. All for the CIE 1931 (2 degree) observer.
// Sources: CIE 015:2018 and ISO/CIE 11664-3 and -4; IEC 61966-2-1:1999 for sRGB; Bradford at adapt().
#pragma once

#include <array>
#include <cstdint>

#include "materials/colour/spectrum.h"

namespace rakelight {

/// Tristimulus values. Y is a luminance in cd/m2, or relative to a white of Y = 1: each use says which.
struct Xyz {
    double x = 0;
    double y = 0;
    double z = 0;
    friend constexpr bool operator==(const Xyz&, const Xyz&) = default;
};

/// CIE 1931 x, y.
struct Chromaticity {
    double x = 0;
    double y = 0;
    friend constexpr bool operator==(const Chromaticity&, const Chromaticity&) = default;
};

/// CIELAB 1976: lightness 0..100 and two opponent axes.
struct Lab {
    double l = 0;
    double a = 0;
    double b = 0;
    friend constexpr bool operator==(const Lab&, const Lab&) = default;
};

/// Linear light on the sRGB primaries; 1,1,1 is D65 of Y = 1. May lie outside 0..1: then it is out of gamut.
struct LinearRgb {
    double r = 0;
    double g = 0;
    double b = 0;
    friend constexpr bool operator==(const LinearRgb&, const LinearRgb&) = default;
};

/// The same after the sRGB transfer function, 0..1 in gamut: what a picture file holds.
struct EncodedSrgb {
    double r = 0;
    double g = 0;
    double b = 0;
    friend constexpr bool operator==(const EncodedSrgb&, const EncodedSrgb&) = default;
};

inline constexpr Chromaticity kD65{0.3127, 0.3290};  ///< white of sRGB, IEC 61966-2-1
inline constexpr Chromaticity kD50{0.3457, 0.3585};  ///< white of graphic-arts viewing, ISO 3664

/// The white of a lamp: its tristimulus values scaled to Y = 1. Sums every 5 nm.
/// \throws std::invalid_argument if the lamp gives no light.
Xyz spectrum_to_xyz(const Spectrum& lamp);

/// A reflectance (0..1) under a lamp, relative to a perfect diffuser of Y = 1. Sums every 5 nm.
/// \throws std::invalid_argument if the lamp gives no light.
Xyz spectrum_to_xyz(const Spectrum& lamp, const Spectrum& reflectance);

/// x, y of a colour; X + Y + Z must not be 0.
Chromaticity chromaticity(const Xyz& colour);

/// A colour of given x, y (y not 0) and Y.
Xyz xyz_of(const Chromaticity& c, double luminance = 1);

/// CIELAB of a colour seen by an eye adapted to `white`, both in one unit; every component of `white`
/// positive.
Lab xyz_to_lab(const Xyz& colour, const Xyz& white);
Xyz lab_to_xyz(const Lab& lab, const Xyz& white);

/// From tristimulus values relative to a D65 of Y = 1, and back. Linear; out-of-gamut values pass through. A
/// colour seen under another white is to be adapted first.
LinearRgb xyz_to_linear_rgb(const Xyz& colour);
Xyz linear_rgb_to_xyz(const LinearRgb& rgb);

/// The sRGB transfer function and its inverse; negative values by odd symmetry.
EncodedSrgb encode(const LinearRgb& rgb);
LinearRgb decode(const EncodedSrgb& rgb);

/// Nearest 8-bit values; outside 0..1 the nearest end, not-a-number 0.
std::array<std::uint8_t, 3> to_bytes(const EncodedSrgb& rgb);
EncodedSrgb from_bytes(const std::array<std::uint8_t, 3>& bytes);

/// The colour that looks under `white_to` as `colour` does under `white_from`: the linear Bradford transform
/// (Lam 1985, made linear in ICC.1:2022, Annex E), complete adaptation. All components of the whites
/// positive.
Xyz adapt(const Xyz& colour, const Xyz& white_from, const Xyz& white_to);

}  // namespace rakelight
