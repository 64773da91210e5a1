#include "output/glare/measures/lamp_parts.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace rakelight {

namespace {

constexpr double kSunFar_mm = 1e9;
// Half the side of a square over the radius of the disc of its area.
const double kSquareOfDisc = std::sqrt(std::numbers::pi) / 2;

struct Outline {
    glm::dvec3 half_u_mm{}, half_v_mm{};
};

glm::dvec3 across(const glm::dvec3& direction) {
    const glm::dvec3 other = std::abs(direction.y) < 0.9 ? glm::dvec3(0, 1, 0) : glm::dvec3(1, 0, 0);
    return glm::normalize(glm::cross(other, direction));
}

Outline square_on(const glm::dvec3& direction, double half_side_mm) {
    const glm::dvec3 u = across(direction);
    return {half_side_mm * u, half_side_mm * glm::cross(direction, u)};
}

// A body's outline as a rectangle: as long as its axis looks, and of the area that is seen.
Outline body_outline(const Emitter& e, double half_length_mm, const glm::dvec3& direction) {
    const double area = static_cast<double>(projected_mm2(e, glm::vec3(-direction)));
    const glm::dvec3 axis(e.axis);
    const glm::dvec3 seen = half_length_mm * (axis - direction * glm::dot(axis, direction));
    const double long_mm = glm::length(seen);
    if (4 * long_mm * long_mm < 0.05 * area) return square_on(direction, std::sqrt(area) / 2);
    return {glm::normalize(glm::cross(seen, direction)) * (area / (4 * long_mm)), seen};
}

// A shape's outline as a rectangle of the same area, as it looks along a direction.
struct OutlineOf {
    const Emitter& e;
    const glm::dvec3& direction;

    Outline operator()(const DiscShape& s) const {
        return {kSquareOfDisc * double(s.half_mm.x) * glm::dvec3(e.u),
                kSquareOfDisc * double(s.half_mm.y) * glm::dvec3(e.v)};
    }
    Outline operator()(const RectangleShape& s) const {
        return {double(s.half_mm.x) * glm::dvec3(e.u), double(s.half_mm.y) * glm::dvec3(e.v)};
    }
    Outline operator()(const SphereShape& s) const {
        return square_on(direction, kSquareOfDisc * double(s.radius_mm));
    }
    Outline operator()(const BoxShape& s) const { return body_outline(e, double(s.half_mm.z), direction); }
    Outline operator()(const CylinderShape& s) const {
        return body_outline(e, double(s.half_length_mm), direction);
    }
    Outline operator()(const SurroundPart&) const {
        return square_on(direction, std::sqrt(double(luminous_mm2(e))) / 2);
    }
    Outline operator()(const SunThroughWindow&) const {
        return square_on(direction, kSquareOfDisc * kSunRadius_rad * kSunFar_mm);
    }
};

bool comes_through(const Emitter& lamp, const SunThroughWindow& sun, const glm::dvec3& point_mm) {
    const glm::dvec3 to_sun(sun.to_sun), axis(lamp.axis);
    const double toward = glm::dot(to_sun, axis);
    if (toward >= 0) return false;
    const glm::dvec3 to = glm::dvec3(lamp.centre_mm) - point_mm;
    const double t = glm::dot(to, axis) / toward;
    const glm::dvec3 at = to_sun * t - to;
    return t > 0 && std::abs(glm::dot(at, glm::dvec3(lamp.u))) < double(sun.window.half_mm.x) &&
           std::abs(glm::dot(at, glm::dvec3(lamp.v))) < double(sun.window.half_mm.y);
}

}  // namespace

std::vector<LampPart> parts_of(const Emitter& lamp, const glm::dvec3& seen_from_mm) {
    const auto* const sun = std::get_if<SunThroughWindow>(&lamp.shape);
    const glm::dvec3 centre =
        sun ? seen_from_mm + kSunFar_mm * glm::dvec3(sun->to_sun) : glm::dvec3(lamp.centre_mm);
    const double far = std::max(glm::distance(centre, seen_from_mm), 1.0);
    const glm::dvec3 direction = (centre - seen_from_mm) / far;
    const Outline whole = std::visit(OutlineOf{lamp, direction}, lamp.shape);
    const double widest = 2 * far * std::tan(glm::radians(kWidestPart_deg / 2));
    const auto count = [&](const glm::dvec3& half) {
        return std::clamp(static_cast<int>(std::ceil(2 * glm::length(half) / widest)), 1, 24);
    };
    const int across_u = count(whole.half_u_mm), across_v = count(whole.half_v_mm);
    std::vector<LampPart> parts;
    for (int j = 0; j < across_v; ++j)
        for (int i = 0; i < across_u; ++i) {
            LampPart part;
            const double x = (2 * i + 1.0) / across_u - 1, y = (2 * j + 1.0) / across_v - 1;
            part.at_mm = centre + x * whole.half_u_mm + y * whole.half_v_mm;
            part.half_u_mm = whole.half_u_mm / double(across_u);
            part.half_v_mm = whole.half_v_mm / double(across_v);
            if (is_flat(lamp) && !sun) {
                const glm::dvec3 from_middle = part.at_mm - centre;
                part.on_face_mm = glm::vec2(glm::dot(from_middle, glm::dvec3(lamp.u)),
                                            glm::dot(from_middle, glm::dvec3(lamp.v)));
            }
            parts.push_back(part);
        }
    return parts;
}

double luminance_toward(const Emitter& lamp, const LampPart& part, const glm::dvec3& point_mm) {
    if (const auto* const sun = std::get_if<SunThroughWindow>(&lamp.shape))
        return comes_through(lamp, *sun, point_mm) ? double(lamp.peak_cd_per_m2) : 0;
    if (lamp.surround) return double(lamp.peak_cd_per_m2);  // the mean of its patch
    const glm::vec3 direction(glm::normalize(point_mm - part.at_mm));
    return static_cast<double>(luminance_cd_per_m2(lamp, direction, part.on_face_mm));
}

double lux_on(const Emitter& lamp, const LampPart& part, const glm::dvec3& point_mm,
              const glm::dvec3& normal) {
    const glm::dvec3 to = part.at_mm - point_mm;
    const double far = glm::length(to), cosine = glm::dot(to, normal) / far;
    if (cosine <= 0) return 0;
    const double seen_mm2 = 4 * std::abs(glm::dot(glm::cross(part.half_u_mm, part.half_v_mm), to)) / far;
    return luminance_toward(lamp, part, point_mm) * seen_mm2 * cosine / (far * far);
}

}  // namespace rakelight
