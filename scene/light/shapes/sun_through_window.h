// The sun through a window: a rectangle that only the sun's disc of directions shines through.
#pragma once

#include <algorithm>
#include <cmath>
#include <numbers>

#include "materials/maths/basis.h"
#include "materials/maths/circle.h"
#include "materials/maths/lanes.h"
#include "scene/light/shapes/rectangle.h"

namespace rakelight {

/// Angular radius of the sun at its mean distance (Allen's Astrophysical Quantities: 959.6 seconds of arc).
inline constexpr double kSunRadius_rad = 959.63 / 3600 * std::numbers::pi / 180;
/// The solid angle of its disc, 4 pi sin^2(radius / 2).
inline const double kSunDisc_sr =
    4 * std::numbers::pi * std::sin(kSunRadius_rad / 2) * std::sin(kSunRadius_rad / 2);

struct SunThroughWindow {
    static constexpr bool kOneSided = true;
    RectangleShape window;
    glm::vec3 to_sun{0, 1, 0};  ///< unit
    friend bool operator==(const SunThroughWindow&, const SunThroughWindow&) = default;
};

/// Area of the window.
inline float area_mm2(const SunThroughWindow& s) {
    return area_mm2(s.window);
}

/// Radius of the ball round the centre that holds the window.
inline float reach_mm(const SunThroughWindow& s) {
    return reach_mm(s.window);
}

/// Area of the window as seen from a unit direction in the pose's frame.
inline float projected_mm2(const SunThroughWindow& s, const glm::vec3& local) {
    return projected_mm2(s.window, local);
}

/// No lamp is one.
inline double even_candela(const SunThroughWindow&, double) {
    return 0;
}

/// A point of the window from two numbers in [0, 1), evenly over its area, along u and v.
inline glm::dvec2 face_point_mm(const SunThroughWindow& s, double a, double b) {
    return face_point_mm(s.window, a, b);
}

namespace shape_detail {

inline const float kSunSine = static_cast<float>(std::sin(kSunRadius_rad));
inline const float kSunPdf = static_cast<float>(1 / kSunDisc_sr);

// Whether a unit direction goes to the disc. By the cross product: a cosine in single precision cannot tell
// the disc's rim.
inline bool within_sun(const SunThroughWindow& s, const glm::vec3& direction) {
    const glm::vec3 aside = glm::cross(direction, s.to_sun);
    return glm::dot(aside, aside) < kSunSine * kSunSine && glm::dot(direction, s.to_sun) > 0;
}

}  // namespace shape_detail

/// A uniformly distributed direction of the sun's disc; pdf 0 where it does not come through the window.
inline ShapeSample sample(const SunThroughWindow& sun, const EmitterPose& pose, const glm::vec3& from_mm,
                          const glm::vec2& u) {
    ShapeSample s;
    const float sine = shape_detail::kSunSine * std::sqrt(u.x);
    s.direction = Basis(sun.to_sun).to_world(glm::vec3(sine * circle_point(u.y), std::sqrt(1 - sine * sine)));
    const ShapeHit hit = intersect(sun.window, pose, from_mm, s.direction);
    s.distance_mm = hit.distance_mm;
    s.at_mm = hit.at_mm;
    if (s.distance_mm > 0) s.pdf = shape_detail::kSunPdf;
    return s;
}

/// Density per steradian with which `sample` gives a direction that meets the window.
inline float pdf(const SunThroughWindow&, const EmitterPose&, const glm::vec3&, const glm::vec3&, float) {
    return shape_detail::kSunPdf;
}

/// Where a ray that goes to the sun's disc meets the window.
inline ShapeHit intersect(const SunThroughWindow& s, const EmitterPose& pose, const glm::vec3& from_mm,
                          const glm::vec3& direction) {
    if (!shape_detail::within_sun(s, direction)) return {};
    return intersect(s.window, pose, from_mm, direction);
}

/// Cosine with which the sun falls on eight places whose surfaces face `normal`: not less than that of any
/// part of its disc where its patch lies, the blurred rim included; 0 elsewhere.
inline Floats sun_cosine(const SunThroughWindow& s, const EmitterPose& pose, const Vec3s& at_mm,
                         const Vec3s& normal) {
    using shape_detail::kSunSine;
    const Vec3s sun = broadcast3(s.to_sun), to = broadcast3(pose.centre_mm) - at_mm;
    const float cosine = glm::dot(s.to_sun, pose.axis);  // negative
    const Floats t = dot(to, broadcast3(pose.axis)) / cosine;
    const Vec3s at = sun * t - to;
    const Floats rim = 1 + t * (1.01f * kSunSine / -cosine);
    const auto size = [](const Floats& x) { return max(x, -x); };
    const Ints lit = (t > 0) & (size(dot(at, broadcast3(pose.u))) < s.window.half_mm.x + rim) &
                     (size(dot(at, broadcast3(pose.v))) < s.window.half_mm.y + rim);
    const Floats facing = dot(sun, normal) + kSunSine;
    return lit ? max(facing, Floats{}) : 0.0f;
}

}  // namespace rakelight
