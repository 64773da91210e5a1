#include "scene/emitter.h"

#include <cmath>
#include <glm/gtc/constants.hpp>
#include <stdexcept>

#include "materials/illuminants.h"

namespace rakelight {

namespace {

constexpr double kDaylightFrom_k = 5000;

// Candela on the axis: stated, or such that the whole lamp gives its lumen.
double axis_candela(const Lamp& lamp, const Emitter& e) {
    if (lamp.candela > 0) return lamp.candela;
    switch (e.shape) {
        case EmitterShape::disc:
            return lamp.lumen / flux_per_candela_sr(e.beam);
        case EmitterShape::sphere:
            return lamp.lumen / (4 * glm::pi<double>());
        case EmitterShape::rectangle:
            return lamp.lumen / glm::pi<double>();
    }
    return 0;
}

void face_along(Emitter& e, const glm::dvec3& toward) {
    const glm::dvec3 axis = glm::normalize(toward);
    const glm::dvec3 up = std::abs(axis.y) < 0.99 ? glm::dvec3(0, 1, 0) : glm::dvec3(0, 0, 1);
    const glm::dvec3 u = glm::normalize(glm::cross(up, axis));
    e.axis = axis;
    e.u = u;
    e.v = glm::cross(axis, u);
}

}  // namespace

Spectrum lamp_spectrum(const Lamp& lamp) {
    if (!lamp.illuminant.empty()) {
        if (auto spectrum = find_illuminant(lamp.illuminant)) return *spectrum;
        throw std::invalid_argument("no illuminant is called " + lamp.illuminant);
    }
    return lamp.temperature_k < kDaylightFrom_k ? planckian(lamp.temperature_k)
                                                : daylight(lamp.temperature_k);
}

BeamTable make_beam(double beam_deg, double field_deg) {
    const double half_beam = glm::radians(beam_deg) / 2;
    const double cosine_power = std::log(0.5) / std::log(std::cos(half_beam));
    const double bell_power =
        field_deg > 0 ? std::log(std::log(10.0) / std::log(2.0)) / std::log(field_deg / beam_deg) : 0;
    const auto exact = [&](double theta) {
        return bell_power > 0 ? std::exp2(-std::pow(theta / half_beam, bell_power))
                              : std::pow(std::max(std::cos(theta), 0.0), cosine_power);
    };
    double end = half_beam;
    while (end < glm::half_pi<double>() && exact(end) > 1e-4) end += glm::radians(0.25);
    end = std::min(end, glm::half_pi<double>());

    BeamTable beam;
    const double widest = std::sin(end / 2);
    beam.steps_per_half_sine = static_cast<float>(BeamTable::kSteps / widest);
    for (int i = 0; i <= BeamTable::kSteps; ++i)
        beam.intensity[i] = static_cast<float>(exact(2 * std::asin(widest * i / BeamTable::kSteps)));
    return beam;
}

double flux_per_candela_sr(const BeamTable& beam) {
    constexpr int kSteps = 8000;  // midpoint rule in theta: error below 1e-6
    const double step = glm::half_pi<double>() / kSteps;
    double flux = 0;
    for (int i = 0; i < kSteps; ++i) {
        const double theta = (i + 0.5) * step;
        flux += beam.at(static_cast<float>(std::cos(theta))) * std::sin(theta);
    }
    return 2 * glm::pi<double>() * flux * step;
}

double luminous_area_mm2(const Emitter& e) {
    if (e.shape == EmitterShape::rectangle) return 4.0 * e.half_width_mm * e.half_height_mm;
    return glm::pi<double>() * e.half_width_mm * e.half_width_mm;
}

Emitter make_emitter(const Lamp& lamp, const glm::dvec3& origin_mm, std::uint32_t group) {
    Emitter e;
    e.group = group;
    e.centre_mm = lamp.at_mm - origin_mm;
    e.half_width_mm = static_cast<float>(lamp.width_mm / 2);
    e.half_height_mm =
        static_cast<float>((lamp.form == LampForm::panel ? lamp.height_mm : lamp.width_mm) / 2);
    e.weights = fold(lamp_spectrum(lamp));
    switch (lamp.form) {
        case LampForm::spot:
            e.shape = EmitterShape::disc;
            e.beam = make_beam(lamp.beam_deg, lamp.field_deg);
            break;
        case LampForm::bulb:
            e.shape = EmitterShape::sphere;
            break;
        case LampForm::panel:
            e.shape = EmitterShape::rectangle;
            break;
    }
    if (lamp.form != LampForm::bulb) face_along(e, lamp.aim_mm - lamp.at_mm);
    constexpr double kMm2PerM2 = 1e6;
    e.peak_cd_per_m2 =
        static_cast<float>(lamp.dimming * axis_candela(lamp, e) * kMm2PerM2 / luminous_area_mm2(e));
    return e;
}

}  // namespace rakelight
