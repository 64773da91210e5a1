// A lamp as light sees it: a luminous face of true size with a luminance in every direction and a colour.
// Room millimetres shifted to the panel's centre, as in world.h.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <glm/glm.hpp>
#include <vector>

#include "materials/lamp_weights.h"
#include "scene/layout.h"

namespace rakelight {

enum class EmitterShape : std::uint8_t { disc, sphere, rectangle };

/// How the intensity of a disc falls from its axis, I(theta) / I(0), tabulated so that a light path needs no
/// powers. Even steps of sin(theta / 2) from the axis to where the lamp has faded out; linear between them.
struct BeamTable {
    static constexpr int kSteps = 256;
    std::array<float, kSteps + 2> intensity{};
    float steps_per_half_sine = 0;

    /// Cosine of the angle beyond which nothing comes.
    float cosine_at_end() const {
        const float half_sine = kSteps / steps_per_half_sine;
        return 1 - 2 * half_sine * half_sine;
    }

    float at(float cos_theta) const {
        const float x = std::sqrt(std::max(0.0f, 0.5f * (1 - cos_theta))) * steps_per_half_sine;
        if (x >= kSteps || cos_theta <= 0) return 0;
        const int i = static_cast<int>(x);
        return intensity[i] + (x - static_cast<float>(i)) * (intensity[i + 1] - intensity[i]);
    }
};

/// One lamp, ready to shine. Luminous area faces `axis` (disc and rectangle shine to that side only).
struct Emitter {
    EmitterShape shape = EmitterShape::disc;
    glm::vec3 centre_mm{};
    glm::vec3 axis{0, 0, 1};   ///< unit
    glm::vec3 u{1, 0, 0};      ///< unit, in the luminous face
    glm::vec3 v{0, 1, 0};      ///< unit, in the luminous face
    float half_width_mm = 30;  ///< radius of disc and sphere
    float half_height_mm = 30;
    float peak_cd_per_m2 = 0;  ///< luminance on the axis
    BeamTable beam;            ///< of a disc
    LampWeights weights;       ///< its colour
    std::uint32_t group = 0;   ///< index in World::groups
};

/// Luminance of the lamp toward a direction that makes `cos_theta` with its axis, cd/m2.
inline float luminance_cd_per_m2(const Emitter& e, float cos_theta) {
    if (e.shape == EmitterShape::sphere) return e.peak_cd_per_m2;
    if (cos_theta <= 0) return 0;
    if (e.shape == EmitterShape::rectangle) return e.peak_cd_per_m2;
    // A disc that keeps its intensity off the axis looks brighter as it foreshortens; the rim of a real spot
    // hides its lens beyond about 87 degrees.
    return e.peak_cd_per_m2 * e.beam.at(cos_theta) / std::max(cos_theta, 0.05f);
}

/// The beam of a spot from its angles (full angles, degrees; definitions: ANSI/IES LS-1, from memory).
/// With the beam angle alone (`field_deg` 0) a power of the cosine; with both, exp(-ln 2 (theta / half
/// beam)^p), the one bell curve that is 50 % at the beam angle and 10 % at the field angle.
BeamTable make_beam(double beam_deg, double field_deg);

/// Luminous flux of the beam per candela on its axis, steradian.
double flux_per_candela_sr(const BeamTable& beam);

/// Luminous area, mm2 (of a sphere: its disc as seen).
double luminous_area_mm2(const Emitter& e);

/// Relative spectral power of a lamp: its illuminant, or a black body or daylight of its temperature.
/// \throws std::invalid_argument for an unknown illuminant.
Spectrum lamp_spectrum(const Lamp& lamp);

/// Builds the lamp. `origin_mm`: room coordinates of the world's origin. `group`: index of its group.
Emitter make_emitter(const Lamp& lamp, const glm::dvec3& origin_mm, std::uint32_t group);

}  // namespace rakelight
