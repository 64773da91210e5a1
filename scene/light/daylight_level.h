// How much light sun and sky give, and of which colour, by the height of the sun.
// Levels by day: D. L. Gillette, W. Pierpoint and S. Treado, "A general illuminance model for daylight
// availability", J. IES 13 (1984), as in the IESNA Lighting Handbook, 9th ed. (2000), chapter 8. In twilight:
// P. M. Janiczek and J. A. DeYoung, "Computer programs for sun and moon illuminance", U.S. Naval Observatory
// Circular 171 (1987). Air mass: F. Kasten and A. T. Young, Appl. Opt. 28, 4735 (1989). All from memory.
#pragma once

#include "materials/colour/spectrum.h"
#include "scene/light/sun_position.h"
#include "scene/model/daylight.h"

namespace rakelight {

/// Air between the sun and the eye, 1 for a sun overhead; about 38 at the horizon and constant below.
double air_mass(double altitude_deg);

/// Illuminance by a clear sky's sun on a plane across its beam, lux; 0 when it has set.
double sun_lux(double altitude_deg, double distance_au = 1);

/// Illuminance on level ground from the sky alone, lux; down through twilight to starlight.
double sky_lux(SkyKind sky, double altitude_deg);

/// Illuminance on level ground from sky and sun while the sun is between 5 degrees above and 18 below the
/// horizon, lux; held constant outside. Janiczek and DeYoung's polynomials.
double twilight_lux(double altitude_deg);

/// The sun's light after the air: a black body of 5777 K (its effective temperature), thinned by Rayleigh
/// scattering (Leckner, Sol. Energy 20, 143 (1978)) and by haze after Angstrom (exponent 1.3), so much of it
/// that light of 555 nm fades as `sun_lux` does.
Spectrum sun_spectrum(double altitude_deg);

/// CIE daylight of 6500 K for an overcast sky, of 10 000 K for a clear one (common practice, no published
/// source), or of `temperature_k` (4000 to 25 000).
Spectrum sky_spectrum(const Daylight& daylight);

/// Where the sun stands; nothing when no time is given.
std::optional<SunInSky> sun_of(const Daylight& daylight);

}  // namespace rakelight
