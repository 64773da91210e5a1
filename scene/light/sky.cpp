#include "scene/light/sky.h"

namespace rakelight {

SkyView scaled(SkyView sky, double factor) {
    sky.scale_cd_per_m2 *= static_cast<float>(factor);
    sky.ground_cd_per_m2 *= static_cast<float>(factor);
    return sky;
}

double plane_lux(const SkyView& sky, const glm::dvec3& normal) {
    // Rings of equal solid angle: even steps of the sine of altitude and of azimuth.
    constexpr int kRings = 400, kRound = 360;
    constexpr double kSolidAngle_sr = 2.0 / kRings * glm::radians(360.0 / kRound);
    double total = 0;
    for (int ring = 0; ring < kRings; ++ring) {
        const double sine = (ring + 0.5) * 2 / kRings - 1;
        const double level = std::sqrt(1 - sine * sine);
        for (int i = 0; i < kRound; ++i) {
            const double turn = glm::radians((i + 0.5) * 360.0 / kRound);
            const glm::dvec3 direction(level * std::cos(turn), sine, level * std::sin(turn));
            const double cosine = glm::dot(direction, normal);
            if (cosine > 0) total += cosine * luminance_cd_per_m2(sky, glm::vec3(direction));
        }
    }
    return total * kSolidAngle_sr;
}

SkyView make_sky(SkyKind kind, const glm::dvec3& to_sun, double level_lux, double ground_cd_per_m2) {
    SkyView sky;
    sky.kind = kind;
    const glm::dvec3 raised(to_sun.x, std::max(to_sun.y, 0.0), to_sun.z);
    if (glm::length(raised) > 0) sky.to_sun = glm::vec3(glm::normalize(raised));
    sky.scale_cd_per_m2 = 1;
    const double per_unit = plane_lux(sky, {0, 1, 0});
    sky.scale_cd_per_m2 = static_cast<float>(level_lux / per_unit);
    sky.ground_cd_per_m2 = static_cast<float>(ground_cd_per_m2);
    return sky;
}

glm::dvec3 direction_in_room(double altitude_deg, double azimuth_deg, double facing_deg) {
    const double up = glm::radians(altitude_deg);
    const double turn = glm::radians(azimuth_deg - facing_deg);
    // z is the bearing the panel looks to; x, the viewer's right, lies a quarter turn before it.
    return {-std::cos(up) * std::sin(turn), std::sin(up), std::cos(up) * std::cos(turn)};
}

}  // namespace rakelight
