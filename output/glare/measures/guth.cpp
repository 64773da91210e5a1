#include "output/glare/measures/guth.h"

#include <algorithm>
#include <cmath>

namespace rakelight {

double position_index(double from_upright_deg, double from_sight_deg) {
    const double t = std::clamp(std::abs(from_upright_deg), 0.0, 90.0);
    const double s = std::clamp(from_sight_deg, 0.0, 90.0);
    return std::exp((35.2 - 0.31889 * t - 1.22 * std::exp(-2 * t / 9)) * 1e-3 * s +
                    (21 + 0.26667 * t - 0.002963 * t * t) * 1e-5 * s * s);
}

double position_index(const glm::dvec3& source, const glm::dvec3& sight, const glm::dvec3& up) {
    const double ahead = std::clamp(glm::dot(source, sight), -1.0, 1.0);
    const glm::dvec3 aside = source - ahead * sight;
    const double length = glm::length(aside);
    if (length < 1e-9) return 1;
    // The head's own upright, at right angles to the line of sight.
    const glm::dvec3 level = up - glm::dot(up, sight) * sight;
    const double rise =
        glm::length(level) > 1e-9 ? glm::dot(aside, level) / (length * glm::length(level)) : 1;
    return position_index(glm::degrees(std::acos(std::clamp(std::abs(rise), 0.0, 1.0))),
                          glm::degrees(std::acos(ahead)));
}

}  // namespace rakelight
