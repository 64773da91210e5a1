#include "scene/light/emitter.h"

#include <algorithm>
#include <cmath>
#include <glm/gtc/constants.hpp>
#include <stdexcept>

#include "materials/colour/illuminants.h"
#include "scene/light/lamp_forms.h"
#include "scene/light/measured_lamp.h"
#include "scene/light/strip_lobe.h"

namespace rakelight {

namespace {

constexpr double kDaylightFrom_k = 5000;

// Candela on the axis, of a lantern sideways: stated, or such that the whole lamp gives its lumen.
double axis_candela(const Lamp& lamp, const Emitter& e) {
    if (lamp.candela > 0) return lamp.candela;
    return e.beam ? lamp.lumen / flux_per_candela_sr(*e.beam) : even_candela(e.shape, lamp.lumen);
}

// A lamp aimed up or down has its v where one tilted from there towards the wall has it.
void face_along(Emitter& e, const glm::dvec3& toward, double turn_deg) {
    const glm::dvec3 axis = glm::normalize(toward);
    const glm::dvec3 up =
        std::abs(axis.y) < 0.99 ? glm::dvec3(0, 1, 0) : glm::dvec3(0, 0, axis.y > 0 ? 1 : -1);
    const glm::dvec3 u = glm::normalize(glm::cross(up, axis)), v = glm::cross(axis, u);
    const double c = std::cos(glm::radians(turn_deg)), s = std::sin(glm::radians(turn_deg));
    e.axis = axis;
    e.u = c * u - s * v;
    e.v = s * u + c * v;
}

void stand_upright(Emitter& e) {
    e.axis = {0, 1, 0};
    e.u = {0, 0, 1};
    e.v = {1, 0, 0};
}

void add_fittings(Emitter& e, const LampFittings& fittings) {
    LampOptics optics = e.optics ? *e.optics : LampOptics{};
    optics.cut = make_cut_offs(fittings, flat_face(e.shape).half_mm);
    e.optics = std::make_shared<const LampOptics>(std::move(optics));
}

// Whether one part of the face may be hidden and another not.
bool cuts_by_place(const CutOffs& cut) {
    return cut.snoot_length_mm > 0 || std::any_of(cut.doors.begin(), cut.doors.end(),
                                                  [](const auto& door) { return door.ahead_mm > 0; });
}

}  // namespace

Spectrum lamp_spectrum(const Lamp& lamp) {
    if (lamp.spectrum) return *lamp.spectrum;
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

float fitted_luminance(const Emitter& e, const glm::vec3& direction, const glm::vec2& at_mm) {
    const LampOptics& optics = *e.optics;
    const bool flat = is_flat(e);
    const float ahead = glm::dot(direction, e.axis);
    if (flat && ahead <= 0) return 0;
    float passes = 1;
    if (flat) {
        const glm::vec2 across(glm::dot(direction, e.u), glm::dot(direction, e.v));
        passes = optics.cut.passes(at_mm, across / std::max(ahead, 1e-6f));
        if (passes <= 0) return 0;
    }
    if (optics.intensity.candela.empty()) return passes * plain_luminance(e, ahead);
    const glm::vec3 own(glm::dot(direction, optics.frame[0]), glm::dot(direction, optics.frame[1]),
                        glm::dot(direction, optics.frame[2]));
    return passes * e.peak_cd_per_m2 * optics.intensity.at(own) * luminous_mm2(e) /
           std::max(projected_mm2(e, direction), 1e-4f * luminous_mm2(e));
}

double candela_toward(const Emitter& e, const glm::vec3& direction) {
    constexpr int kGrid = 64;  // points of the face, midpoint rule
    constexpr double kM2PerMm2 = 1e-6;
    const double area_m2 = kM2PerMm2 * projected_mm2(e, direction);
    if (!(area_m2 > 0)) return 0;
    if (e.surround) return area_m2 * double(e.peak_cd_per_m2);
    const bool flat = is_flat(e);
    if (!flat || !e.optics || !cuts_by_place(e.optics->cut))
        return area_m2 * luminance_cd_per_m2(e, direction, {});
    double sum = 0;
    for (int i = 0; i < kGrid * kGrid; ++i) {
        const double a = (i % kGrid + 0.5) / kGrid, b = (i / kGrid + 0.5) / kGrid;
        sum += luminance_cd_per_m2(e, direction, glm::vec2(face_point_mm(e.shape, a, b)));
    }
    return area_m2 * sum / (kGrid * kGrid);
}

Emitter make_emitter(const Lamp& lamp, const glm::dvec3& origin_mm, std::uint32_t group) {
    const LampFormRule& rule = rule_of(lamp.form);
    Emitter e;
    e.group = group;
    e.centre_mm = lamp.at_mm - origin_mm;
    e.weights = tristimulus_weights(lamp_spectrum(lamp));
    if (rule.shape)
        e.shape = rule.shape({static_cast<float>(lamp.width_mm / 2), static_cast<float>(lamp.height_mm / 2)});
    if (rule.faces_one_way)
        face_along(e, lamp.faces_mm.value_or(lamp.aim_mm) - lamp.at_mm, lamp.turn_deg);
    else
        stand_upright(e);
    if (rule.takes_beam && !rule.is_strip)
        e.beam = std::make_shared<const BeamTable>(make_beam(lamp.beam_deg, lamp.field_deg));
    const double greatest_candela = rule.by_file                         ? shine_as_measured(e, lamp)
                                    : rule.is_strip && lamp.beam_deg > 0 ? shine_as_strip(e, lamp)
                                                                         : axis_candela(lamp, e);
    constexpr double kMm2PerM2 = 1e6;
    e.peak_cd_per_m2 = static_cast<float>(lamp.dimming * greatest_candela * kMm2PerM2 / luminous_mm2(e));
    if (lamp.fittings.any()) add_fittings(e, lamp.fittings);
    return e;
}

}  // namespace rakelight
