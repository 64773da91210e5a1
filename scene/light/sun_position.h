// Where the sun stands: right ascension and declination from the low-accuracy theory of the sun, hour angle
// from sidereal time, refraction of the air. Good to 0.02 degrees from 1900 to 2100.
// Source: J. Meeus, "Astronomical Algorithms", 2nd ed. (1998), chapters 12, 13, 16 and 25.
#pragma once

#include "scene/model/daylight.h"

namespace rakelight {

/// Whether there is such a day.
bool exists(const CalendarDay& day);

/// The sun among the stars, as seen from the earth's centre.
struct SunCoordinates {
    double right_ascension_deg = 0;  ///< 0..360
    double declination_deg = 0;
    double distance_au = 1;
};

/// The sun in the sky of a place.
struct SunInSky {
    double altitude_deg = 0;  ///< above the horizon as it is seen, so with refraction; below it without
    double azimuth_deg = 0;   ///< clockwise from north, 0..360
    double distance_au = 1;
};

/// Julian day of a moment. `hour_ut` may lie outside 0..24.
double julian_day(const CalendarDay& day, double hour_ut);

/// At a Julian day, its fraction included.
SunCoordinates sun_coordinates(double julian_day);

/// Sundial time less mean time, minutes; about -14 in February, +16 in November.
double equation_of_time_min(double julian_day);

/// The sun at a moment of universal time. Latitude positive north, longitude positive east.
SunInSky sun_in_sky(const CalendarDay& day, double hour_ut, double latitude_deg, double longitude_deg);

/// The sun by the sundial: at 12 it stands due south (or north). The declination is that of the meridian of
/// Greenwich; elsewhere it is at most 0.2 degrees off.
SunInSky sun_by_sundial(const CalendarDay& day, double hour, double latitude_deg);

}  // namespace rakelight
