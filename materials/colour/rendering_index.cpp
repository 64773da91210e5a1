#include "materials/colour/rendering_index.h"

#include <algorithm>
#include <cmath>

#include "materials/colour/colorimetry.h"
#include "materials/colour/colour_temperature.h"
#include "materials/colour/illuminants.h"

namespace rakelight {

namespace {

constexpr double kDaylightFrom_k = 5000;
constexpr double kLastDaylight_k = 25000;  // no daylight is defined beyond

// CIE 1960 u, v.
struct Uv {
    double u;
    double v;
};

Uv uv_of(const Xyz& c) {
    const double sum = c.x + 15 * c.y + 3 * c.z;
    return {4 * c.x / sum, 6 * c.y / sum};
}

// The von Kries adaptation of the method, from the lamp's white to the reference's: clause 5.7.
double c_of(const Uv& p) {
    return (4 - p.u - 10 * p.v) / p.v;
}
double d_of(const Uv& p) {
    return (1.708 * p.v + 0.404 - 1.481 * p.u) / p.v;
}

Uv adapted(const Uv& colour, const Uv& white, const Uv& reference) {
    const double c = c_of(reference) / c_of(white) * c_of(colour);
    const double d = d_of(reference) / d_of(white) * d_of(colour);
    const double below = 16.518 + 1.481 * c - d;
    return {(10.872 + 0.404 * c - 4 * d) / below, 5.520 / below};
}

// CIE 1964 W*, U*, V*; `luminance` relative to a white of 1.
struct Wuv {
    double w;
    double u;
    double v;
};

Wuv wuv_of(const Uv& colour, double luminance, const Uv& white) {
    const double w = 25 * std::cbrt(100 * luminance) - 17;
    return {w, 13 * w * (colour.u - white.u), 13 * w * (colour.v - white.v)};
}

}  // namespace

RenderingIndex rendering_index(const Spectrum& lamp) {
    const Xyz lamp_white = spectrum_to_xyz(lamp);
    const double temperature_k = cct_k(lamp_white);
    const Spectrum reference = temperature_k < kDaylightFrom_k
                                   ? planckian(temperature_k)
                                   : daylight(std::min(temperature_k, kLastDaylight_k));
    const Uv white = uv_of(lamp_white), reference_white = uv_of(spectrum_to_xyz(reference));

    RenderingIndex index;
    for (std::size_t i = 0; i < kTestColours.size(); ++i) {
        const Xyz seen = spectrum_to_xyz(lamp, kTestColours[i]);
        const Xyz wanted = spectrum_to_xyz(reference, kTestColours[i]);
        const Wuv a = wuv_of(adapted(uv_of(seen), white, reference_white), seen.y, reference_white);
        const Wuv b = wuv_of(uv_of(wanted), wanted.y, reference_white);
        index.special[i] = 100 - 4.6 * std::hypot(a.w - b.w, a.u - b.u, a.v - b.v);
        if (i < 8) index.general += index.special[i] / 8;
    }
    return index;
}

}  // namespace rakelight
