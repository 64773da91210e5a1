#include "scene/light/daylight_level.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <glm/glm.hpp>

#include "materials/colour/illuminants.h"

namespace rakelight {
namespace {

constexpr double kOutsideTheAir_lux = 127'500;
constexpr double kExtinction = 0.21;  // per air mass, clear sky

// Lux on level ground = base + rise * sin(altitude)^power.
struct SkyLevel {
    double base_lux;
    double rise_lux;
    double power;
};

constexpr SkyLevel level_of(SkyKind sky) {
    return sky == SkyKind::clear ? SkyLevel{800, 15'500, 0.5} : SkyLevel{300, 21'000, 1};
}

// log10 lux = a cubic of altitude / 90 degrees, from `above_deg` up to the next row.
struct Twilight {
    double above_deg;
    std::array<double, 4> c;
};

constexpr Twilight kTwilight[] = {
    {-0.8, {2.88, 22.26, -207.64, 1034.30}},
    {-5, {2.88, 21.81, -258.11, -858.36}},
    {-12, {2.70, 12.17, -431.69, -1899.83}},
    {-18, {13.84, 262.72, 1447.42, 2797.93}},
};

constexpr double kRayleigh = 0.008735, kRayleighPower = -4.08;  // wavelength in micrometres
constexpr double kHazePower = -1.3;

double rayleigh(double um) {
    return kRayleigh * std::pow(um, kRayleighPower);
}

}  // namespace

double air_mass(double altitude_deg) {
    const double h = std::max(altitude_deg, 0.0);
    return 1 / (std::sin(glm::radians(h)) + 0.50572 * std::pow(h + 6.07995, -1.6364));
}

double sun_lux(double altitude_deg, double distance_au) {
    if (altitude_deg <= 0) return 0;
    return kOutsideTheAir_lux / (distance_au * distance_au) * std::exp(-kExtinction * air_mass(altitude_deg));
}

double twilight_lux(double altitude_deg) {
    const double h = std::clamp(altitude_deg, -18.0, 5.0);
    const Twilight* row = kTwilight;
    while (h < row->above_deg) ++row;
    const double x = h / 90;
    return std::pow(10, row->c[0] + x * (row->c[1] + x * (row->c[2] + x * row->c[3])));
}

double sky_lux(SkyKind sky, double altitude_deg) {
    const SkyLevel level = level_of(sky);
    if (altitude_deg < 0) return level.base_lux * twilight_lux(altitude_deg) / twilight_lux(0);
    return level.base_lux + level.rise_lux * std::pow(std::sin(glm::radians(altitude_deg)), level.power);
}

Spectrum sun_spectrum(double altitude_deg) {
    constexpr double kSun_k = 5777;
    const double air = air_mass(altitude_deg);
    const double haze = (kExtinction - rayleigh(0.555)) * std::pow(0.555, -kHazePower);
    Spectrum light = planckian(kSun_k);
    for (int i = 0; i < kSpectrumCount; ++i) {
        const double um = spectrum_wavelength_nm(i) / 1000.0;
        light[i] *= std::exp(-air * (rayleigh(um) + haze * std::pow(um, kHazePower)));
    }
    return light;
}

Spectrum sky_spectrum(const Daylight& daylight) {
    const double usual_k = daylight.sky == SkyKind::clear ? 10'000 : 6500;
    return rakelight::daylight(daylight.temperature_k.value_or(usual_k));
}

std::optional<SunInSky> sun_of(const Daylight& daylight) {
    if (!daylight.time) return {};
    const SunTime& at = *daylight.time;
    if (!at.longitude_deg) return sun_by_sundial(at.day, at.hour, at.latitude_deg);
    return sun_in_sky(at.day, at.hour - at.zone_h, at.latitude_deg, *at.longitude_deg);
}

}  // namespace rakelight
