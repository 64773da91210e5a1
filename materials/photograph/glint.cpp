#include "materials/photograph/glint.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <glm/glm.hpp>
#include <numbers>
#include <stdexcept>

namespace rakelight {
namespace {

constexpr int kRings = 24, kSpokes = 24;
constexpr double kTold = 1.03;     // times a mirror's width: less is no roughness
constexpr double kRoughest = 0.6;  // beyond it a glint is no glint

// Luminance of the face at `y` from the mirrored middle, in any unit: the lamp's disc through the facets.
double luminance(const Glint& g, double alpha, double y) {
    const glm::dvec3 at(0, y, 0), to_camera = glm::normalize(glm::dvec3(0, 0, g.camera_distance_mm) - at);
    double sum = 0;
    for (int i = 0; i < kRings; ++i)
        for (int k = 0; k < kSpokes; ++k) {
            const double r = g.lamp_mm / 2 * std::sqrt((i + 0.5) / kRings);
            const double phi = 2 * std::numbers::pi * (k + 0.5) / kSpokes;
            const glm::dvec3 way = glm::dvec3(r * std::cos(phi), r * std::sin(phi), g.lamp_distance_mm) - at;
            const double distance = glm::length(way);
            const double cos2 = std::pow(glm::normalize(way / distance + to_camera).z, 2);
            const double d = alpha / (cos2 * (alpha * alpha - 1) + 1);
            sum += d * d * way.z / (distance * distance * distance);
        }
    return sum / to_camera.z;
}

}  // namespace

double mirrored_width_mm(const Glint& g) {
    return g.lamp_mm * g.camera_distance_mm / (g.lamp_distance_mm + g.camera_distance_mm);
}

double glint_width_mm(const Glint& g, double alpha) {
    // Facets finer than the rings of the lamp are those of a mirror.
    const double mirror = mirrored_width_mm(g);
    const double half = luminance(g, alpha, 0) / 2;
    double low = 0, high = 20 * (g.lamp_distance_mm + g.camera_distance_mm);
    for (int i = 0; i < 60; ++i) {
        const double middle = (low + high) / 2;
        (luminance(g, alpha, middle) > half ? low : high) = middle;
    }
    return std::max(mirror, low + high);
}

double roughness_of(const Glint& g) {
    for (const double length : {g.width_mm, g.lamp_mm, g.lamp_distance_mm, g.camera_distance_mm})
        if (!(length > 0 && std::isfinite(length)))
            throw std::invalid_argument("every length of a glint must be above 0");
    const double mirror = mirrored_width_mm(g);
    if (g.width_mm < 0.9 * mirror)
        throw std::invalid_argument(fmt::format(
            "a glint {:.3g} mm wide is narrower than a mirror would show it, {:.3g} mm", g.width_mm, mirror));
    if (g.width_mm < kTold * mirror) return 0;
    double low = 0.05 * g.lamp_mm / g.lamp_distance_mm / kRings, high = kRoughest;
    if (g.width_mm > glint_width_mm(g, high))
        throw std::invalid_argument(
            fmt::format("a glint {:.3g} mm wide is wider than a dull face would show it, "
                        "{:.3g} mm",
                        g.width_mm, glint_width_mm(g, high)));
    for (int i = 0; i < 40; ++i) {
        const double middle = std::sqrt(low * high);
        (glint_width_mm(g, middle) < g.width_mm ? low : high) = middle;
    }
    return std::sqrt(low * high);
}

}  // namespace rakelight
