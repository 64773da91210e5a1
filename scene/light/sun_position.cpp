#include "scene/light/sun_position.h"

#include <chrono>
#include <cmath>
#include <glm/glm.hpp>

namespace rakelight {
namespace {

constexpr double kDegreesAnHour = 15;
constexpr double kJ2000_jd = 2451545;

double turned_into(double deg, double low) {
    return deg - 360 * std::floor((deg - low) / 360);
}

double sin_deg(double deg) {
    return std::sin(glm::radians(deg));
}
double cos_deg(double deg) {
    return std::cos(glm::radians(deg));
}

// Meeus (12.4), mean sidereal time at Greenwich.
double sidereal_deg(double jd) {
    const double d = jd - kJ2000_jd;
    const double t = d / 36525;
    return 280.46061837 + 360.98564736629 * d + 0.000387933 * t * t;
}

// Meeus (16.4), after Saemundsson: true altitude to seen altitude. From half a degree below the horizon the
// air lifts the sun's centre to it.
double lifted_deg(double altitude_deg) {
    constexpr double kJustSeen_deg = -0.575;
    if (altitude_deg < kJustSeen_deg) return altitude_deg;
    const double minutes = 1.02 / std::tan(glm::radians(altitude_deg + 10.3 / (altitude_deg + 5.11)));
    return altitude_deg + std::max(minutes, 0.0) / 60;
}

// Meeus (13.5) and (13.6); `hour_angle_deg` counts westward from the meridian.
SunInSky seen_from(const SunCoordinates& sun, double hour_angle_deg, double latitude_deg) {
    const double h = hour_angle_deg, phi = latitude_deg, delta = sun.declination_deg;
    const double sine = sin_deg(phi) * sin_deg(delta) + cos_deg(phi) * cos_deg(delta) * cos_deg(h);
    const double from_south =
        glm::degrees(std::atan2(sin_deg(h) * cos_deg(delta),
                                cos_deg(h) * sin_deg(phi) * cos_deg(delta) - sin_deg(delta) * cos_deg(phi)));
    return {lifted_deg(glm::degrees(std::asin(glm::clamp(sine, -1.0, 1.0)))),
            turned_into(from_south + 180, 0), sun.distance_au};
}

}  // namespace

bool exists(const CalendarDay& day) {
    using namespace std::chrono;
    return day.month > 0 && day.day > 0 &&
           year_month_day(year(day.year), month(static_cast<unsigned>(day.month)),
                          std::chrono::day(static_cast<unsigned>(day.day)))
               .ok();
}

double julian_day(const CalendarDay& day, double hour_ut) {
    using namespace std::chrono;
    constexpr double kUnixEpoch_jd = 2440587.5;
    const sys_days date = year_month_day(year(day.year), month(static_cast<unsigned>(day.month)),
                                         std::chrono::day(static_cast<unsigned>(day.day)));
    return kUnixEpoch_jd + static_cast<double>(date.time_since_epoch().count()) + hour_ut / 24;
}

SunCoordinates sun_coordinates(double jd) {
    const double t = (jd - kJ2000_jd) / 36525;
    const double mean_longitude = 280.46646 + t * (36000.76983 + t * 0.0003032);
    const double anomaly = 357.52911 + t * (35999.05029 - t * 0.0001537);
    const double eccentricity = 0.016708634 - t * (0.000042037 + t * 0.0000001267);
    const double centre = (1.914602 - t * (0.004817 + t * 0.000014)) * sin_deg(anomaly) +
                          (0.019993 - 0.000101 * t) * sin_deg(2 * anomaly) + 0.000289 * sin_deg(3 * anomaly);
    const double node = 125.04 - 1934.136 * t;
    const double longitude = mean_longitude + centre - 0.00569 - 0.00478 * sin_deg(node);
    const double obliquity = 23.0 + 26.0 / 60 + 21.448 / 3600 -
                             t * (46.8150 + t * (0.00059 - t * 0.001813)) / 3600 + 0.00256 * cos_deg(node);
    SunCoordinates sun;
    sun.right_ascension_deg =
        turned_into(glm::degrees(std::atan2(cos_deg(obliquity) * sin_deg(longitude), cos_deg(longitude))), 0);
    sun.declination_deg = glm::degrees(std::asin(sin_deg(obliquity) * sin_deg(longitude)));
    sun.distance_au =
        1.000001018 * (1 - eccentricity * eccentricity) / (1 + eccentricity * cos_deg(anomaly + centre));
    return sun;
}

double equation_of_time_min(double jd) {
    const double hour_ut = 24 * (jd - 0.5 - std::floor(jd - 0.5));
    const double hour_angle = sidereal_deg(jd) - sun_coordinates(jd).right_ascension_deg;
    constexpr double kMinutesADegree = 60 / kDegreesAnHour;
    return kMinutesADegree * turned_into(hour_angle - kDegreesAnHour * (hour_ut - 12), -180);
}

SunInSky sun_in_sky(const CalendarDay& day, double hour_ut, double latitude_deg, double longitude_deg) {
    const double jd = julian_day(day, hour_ut);
    const SunCoordinates sun = sun_coordinates(jd);
    return seen_from(sun, sidereal_deg(jd) + longitude_deg - sun.right_ascension_deg, latitude_deg);
}

SunInSky sun_by_sundial(const CalendarDay& day, double hour, double latitude_deg) {
    return seen_from(sun_coordinates(julian_day(day, hour)), kDegreesAnHour * (hour - 12), latitude_deg);
}

}  // namespace rakelight
