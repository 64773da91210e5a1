#include "scene/room/mirror_tilt.h"

#include <algorithm>
#include <cmath>

namespace rakelight {

glm::dvec3 mirroring_normal(const glm::dvec3& at_mm, const glm::dvec3& lamp_mm, const glm::dvec3& eye_mm) {
    const glm::dvec3 sum = glm::normalize(lamp_mm - at_mm) + glm::normalize(eye_mm - at_mm);
    const double length = glm::length(sum);
    return length > 1e-9 ? sum / length : glm::dvec3(0, 0, 1);
}

NeededTilt needed_tilt(const glm::dvec3& at_mm, const glm::dvec3& lamp_mm, const glm::dvec3& eye_mm,
                       double lean_deg) {
    const glm::dvec3 room = mirroring_normal(at_mm, lamp_mm, eye_mm);
    const double lean = glm::radians(lean_deg);
    // In the panel's axes: its normal looks down by the lean.
    const glm::dvec3 n(room.x, room.y * std::cos(lean) + room.z * std::sin(lean),
                       room.z * std::cos(lean) - room.y * std::sin(lean));
    return {glm::degrees(std::atan2(n.y, n.z)), glm::degrees(std::atan2(n.x, std::hypot(n.y, n.z))),
            glm::degrees(std::acos(std::clamp(n.z, -1.0, 1.0)))};
}

double share_that_mirrors(double total_tilt_deg, double spread_deg, double reach_deg) {
    const double s2 = 2 * spread_deg * spread_deg;
    return reach_deg * reach_deg / s2 * std::exp(-total_tilt_deg * total_tilt_deg / s2);
}

}  // namespace rakelight
