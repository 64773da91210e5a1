// The sky over a horizon, as luminance in every direction; below the horizon, evenly lit ground.
// Overcast: P. Moon and D. E. Spencer, "Illumination from a non-uniform sky", Illum. Eng. 37 (1942), the CIE
// overcast sky. Clear: ISO 15469:2004 / CIE S 011, sky type 12 ("CIE standard clear sky, low turbidity").
#pragma once

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <glm/glm.hpp>
#include <numbers>

#include "scene/model/daylight.h"

namespace rakelight {

/// A sky, its scale set. Axes of the room: y is up.
struct SkyView {
    SkyKind kind = SkyKind::overcast;
    glm::vec3 to_sun{0, 1, 0};   ///< unit; of a clear sky
    float scale_cd_per_m2 = 0;   ///< zenith luminance (overcast); what relative luminance counts in (clear)
    float ground_cd_per_m2 = 0;  ///< seen below the horizon
};

namespace sky_detail {

// CIE S 011, type 12: gradation a, b and indicatrix c, d, e.
inline constexpr float kA = -1, kB = -0.32f, kC = 10, kD = -3, kE = 0.45f;

inline float gradation(float sine) {
    return sine > 1e-3f ? 1 + kA * std::exp(kB / sine) : 1.0f;
}

inline float indicatrix(float cos_from_sun) {
    constexpr float kHalfPi = std::numbers::pi_v<float> / 2;
    const float cosine = std::clamp(cos_from_sun, -1.0f, 1.0f);
    return 1 + kC * (std::exp(kD * std::acos(cosine)) - std::exp(kD * kHalfPi)) + kE * cosine * cosine;
}

}  // namespace sky_detail

/// Luminance towards a unit direction, cd/m2.
inline float luminance_cd_per_m2(const SkyView& sky, const glm::vec3& direction) {
    if (direction.y <= 0) return sky.ground_cd_per_m2;
    if (sky.kind == SkyKind::overcast) return sky.scale_cd_per_m2 * (1 + 2 * direction.y) * (1 / 3.0f);
    return sky.scale_cd_per_m2 * sky_detail::gradation(direction.y) *
           sky_detail::indicatrix(glm::dot(direction, sky.to_sun));
}

/// A sky that gives `level_lux` to level ground, over ground of `ground_cd_per_m2`. A sun below the horizon
/// shapes a clear sky as one on the horizon does.
SkyView make_sky(SkyKind kind, const glm::dvec3& to_sun, double level_lux, double ground_cd_per_m2);

/// Illuminance of an unobstructed plane that faces `normal` (unit), lux: from sky and ground, without the
/// sun. Midpoint rule, good to 0.1 %.
double plane_lux(const SkyView& sky, const glm::dvec3& normal);

/// Everything times a factor.
SkyView scaled(SkyView sky, double factor);

/// Horizontal direction or sun as a direction of the room, when the panel looks to compass bearing
/// `facing_deg`: clockwise from north, as both are.
glm::dvec3 direction_in_room(double altitude_deg, double azimuth_deg, double facing_deg);

}  // namespace rakelight
