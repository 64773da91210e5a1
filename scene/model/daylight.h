// The light outside as plain values.
#pragma once

#include <optional>

namespace rakelight {

/// A day of the Gregorian calendar.
struct CalendarDay {
    int year = 2000;
    int month = 1;  ///< 1..12
    int day = 1;    ///< 1..31
};

/// CIE standard skies, sky.h.
enum class SkyKind { overcast, clear };

/// When and where: what the place of the sun follows from.
struct SunTime {
    CalendarDay day;
    double hour = 12;  ///< by the sundial, or by the clock when there is a longitude
    double latitude_deg = 0;
    std::optional<double> longitude_deg;  ///< positive east
    double zone_h = 0;                    ///< how far the clock runs before universal time
};

/// The light outside. What is not stated in lux follows from the height of the sun.
struct Daylight {
    SkyKind sky = SkyKind::overcast;
    std::optional<SunTime> time;
    double facing_deg = 180;              ///< compass bearing the panel looks to; 180 = south
    std::optional<double> sky_lux;        ///< on level ground, from the sky alone
    std::optional<double> sun_lux;        ///< across the beam; 0 = the sun is hidden
    std::optional<double> temperature_k;  ///< of the sky's light
    double ground_reflectance = 0.2;      ///< of what is seen below the horizon
};

}  // namespace rakelight
