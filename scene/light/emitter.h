// The area light: a luminous shape of true size with a luminance in every direction and a colour. Room
// millimetres shifted to the panel's centre, as in world.h.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <glm/glm.hpp>
#include <memory>
#include <numbers>
#include <optional>
#include <vector>

#include "materials/colour/tristimulus_weights.h"
#include "materials/optics/pane.h"
#include "scene/light/cut_offs.h"
#include "scene/light/intensity_grid.h"
#include "scene/light/shapes/emitter_shape.h"
#include "scene/light/sky.h"
#include "scene/model/lamp.h"

namespace rakelight {

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

    /// I(theta) / I(0) at a cosine; 0 beyond the end and from behind.
    float at(float cos_theta) const {
        const float x = std::sqrt(std::max(0.0f, 0.5f * (1 - cos_theta))) * steps_per_half_sine;
        if (x >= kSteps || cos_theta <= 0) return 0;
        const int i = static_cast<int>(x);
        return intensity[i] + (x - static_cast<float>(i)) * (intensity[i + 1] - intensity[i]);
    }
};

/// What most lamps do without: an intensity of their own in every direction, and fittings.
struct LampOptics {
    IntensityGrid intensity;  ///< its greatest value 1; empty = as the form has it
    /// The frame of `intensity` in the world: C 0, C 90, nadir.
    std::array<glm::vec3, 3> frame{glm::vec3(1, 0, 0), glm::vec3(0, 1, 0), glm::vec3(0, 0, 1)};
    CutOffs cut;  ///< of disc and rectangle
};

/// One lamp, ready to shine.
struct Emitter : EmitterPose {
    EmitterShape shape;
    float peak_cd_per_m2 = 0;  ///< luminance on the axis; with `intensity` the most candela over luminous_mm2
    std::shared_ptr<const BeamTable> beam;     ///< of a disc; none: equally bright from everywhere
    std::shared_ptr<const LampOptics> optics;  ///< mostly none
    std::optional<SkyView> sky;  ///< seen through a rectangle; then `peak_cd_per_m2` is its mean luminance
    /// All round of a shape that is a part of it; then `weights` are its mean colour.
    std::shared_ptr<const SurroundLight> surround;
    bool glazed = false;  ///< the sky is seen through panes that pass less aslant (materials/optics/pane.h)
    TristimulusWeights weights;  ///< its colour
    std::uint32_t group = 0;     ///< index in World::groups
};

/// Whether the lamp shines to one side only.
inline bool is_flat(const Emitter& e) {
    return is_one_sided(e.shape);
}

/// Area of the luminous face, mm2; of a sphere or a cylinder as it is seen from the side, of a box the mean
/// of its three.
inline float luminous_mm2(const Emitter& e) {
    return area_mm2(e.shape);
}

/// Luminous area as seen from a unit direction, mm2.
inline float projected_mm2(const Emitter& e, const glm::vec3& direction) {
    return projected_mm2(e.shape, e.to_local(direction));
}

/// Luminance of a lamp without optics towards a direction that makes `cos_theta` with its axis, cd/m2.
inline float plain_luminance(const Emitter& e, float cos_theta) {
    if (!is_flat(e)) return e.peak_cd_per_m2;
    if (cos_theta <= 0) return 0;
    if (!e.beam) return e.peak_cd_per_m2;
    // A disc that keeps its intensity off the axis looks brighter as it foreshortens; the rim of a real spot
    // hides its lens beyond about 87 degrees.
    return e.peak_cd_per_m2 * e.beam->at(cos_theta) / std::max(cos_theta, 0.05f);
}

/// The same of a lamp with optics.
float fitted_luminance(const Emitter& e, const glm::vec3& direction, const glm::vec2& at_mm);

/// Luminance, cd/m2, of the point `at_mm` (along u and v of a flat face; the pixel of a part of a picture
/// all round) towards a unit direction that
/// leaves the lamp.
inline float luminance_cd_per_m2(const Emitter& e, const glm::vec3& direction, const glm::vec2& at_mm) {
    if (e.sky) {
        const float cosine = glm::dot(direction, e.axis);
        if (cosine <= 0) return 0;
        return luminance_cd_per_m2(*e.sky, -direction) * (e.glazed ? glazing_share(cosine) : 1);
    }
    if (e.surround) return e.surround->cd_per_m2(static_cast<std::uint32_t>(at_mm.x));
    return e.optics ? fitted_luminance(e, direction, at_mm) : plain_luminance(e, glm::dot(direction, e.axis));
}

/// Colour of the light that comes from a unit direction `to` the lamp. `own`: where that of a picture is put.
inline const TristimulusWeights& weights_from(const Emitter& e, const glm::vec3& to,
                                              TristimulusWeights& own) {
    if (!e.surround) return e.weights;
    return own = e.surround->weights(e.surround->pixel(to));
}

/// Luminous intensity of the whole lamp towards a unit direction, cd: its luminance over its luminous area.
double candela_toward(const Emitter& e, const glm::vec3& direction);

/// The beam of a spot from its angles (full angles, degrees; definitions: ANSI/IES LS-1, from memory).
/// With the beam angle alone (`field_deg` 0) a power of the cosine; with both, exp(-ln 2 (theta / half
/// beam)^p), the one bell curve that is 50 % at the beam angle and 10 % at the field angle.
BeamTable make_beam(double beam_deg, double field_deg);

/// Luminous flux of the beam per candela on its axis, steradian.
double flux_per_candela_sr(const BeamTable& beam);

/// Relative spectral power of a lamp: its own, its illuminant, or a black body or daylight of its
/// temperature. \throws std::invalid_argument for an unknown illuminant.
Spectrum lamp_spectrum(const Lamp& lamp);

/// Builds the lamp. `origin_mm`: room coordinates of the world's origin. `group`: index of its group.
Emitter make_emitter(const Lamp& lamp, const glm::dvec3& origin_mm, std::uint32_t group);

}  // namespace rakelight
