// A sphere that shines all round, sampled by the cone of directions that it fills.
#pragma once

#include <algorithm>
#include <cmath>
#include <numbers>

#include "materials/maths/basis.h"
#include "materials/maths/circle.h"
#include "scene/light/shapes/emitter_pose.h"

namespace rakelight {

struct SphereShape {
    static constexpr bool kOneSided = false;
    float radius_mm = 30;
    friend bool operator==(const SphereShape&, const SphereShape&) = default;
};

/// Area as it is seen from any side.
inline float area_mm2(const SphereShape& s) {
    return std::numbers::pi_v<float> * s.radius_mm * s.radius_mm;
}

/// Radius of the ball round the centre that holds the shape.
inline float reach_mm(const SphereShape& s) {
    return s.radius_mm;
}

/// Luminous area as seen from a unit direction in the pose's frame.
inline float projected_mm2(const SphereShape& s, const glm::vec3&) {
    return area_mm2(s);
}

/// Candela of an even luminance that gives `lumen`.
inline double even_candela(const SphereShape&, double lumen) {
    return lumen / (4 * std::numbers::pi);
}

namespace shape_detail {

/// One less the cosine of the angle by which a sphere reaches from its centre, without the rounding that
/// would drown it for a small lamp far away.
inline float cone_versine(const SphereShape& s, float distance2) {
    const float sin2 = std::min(s.radius_mm * s.radius_mm / distance2, 1.0f);
    return sin2 / (1 + std::sqrt(1 - sin2));
}

inline float cone_pdf(float versine) {
    return 1 / (2 * std::numbers::pi_v<float> * std::max(versine, 1e-14f));
}

}  // namespace shape_detail

/// A uniformly distributed direction of the cone; pdf 0 from within.
inline ShapeSample sample(const SphereShape& shape, const EmitterPose& pose, const glm::vec3& from_mm,
                          const glm::vec2& u) {
    ShapeSample s;
    const glm::vec3 to = pose.centre_mm - from_mm;
    const float d2 = glm::dot(to, to);
    if (d2 <= shape.radius_mm * shape.radius_mm) return s;
    const float widest = shape_detail::cone_versine(shape, d2);
    const float versine = u.x * widest, cosine = 1 - versine;
    const float sine = std::sqrt(versine * (2 - versine));
    const float d = std::sqrt(d2);
    s.direction = Basis(to / d).to_world(glm::vec3(sine * circle_point(u.y), cosine));
    const float along = d * cosine;
    s.distance_mm = along - std::sqrt(std::max(0.0f, along * along - d2 + shape.radius_mm * shape.radius_mm));
    s.pdf = shape_detail::cone_pdf(widest);
    return s;
}

/// Density per steradian with which `sample` gives a direction that meets the shape at `distance_mm`.
inline float pdf(const SphereShape& s, const EmitterPose& pose, const glm::vec3& from_mm, const glm::vec3&,
                 float) {
    const glm::vec3 to = pose.centre_mm - from_mm;
    return shape_detail::cone_pdf(shape_detail::cone_versine(s, glm::dot(to, to)));
}

/// Where a ray enters it; not above 0 when it starts within.
inline ShapeHit intersect(const SphereShape& s, const EmitterPose& pose, const glm::vec3& from_mm,
                          const glm::vec3& direction) {
    const glm::vec3 to = pose.centre_mm - from_mm;
    const float along = glm::dot(to, direction);
    const glm::vec3 aside = to - along * direction;
    const float inside = s.radius_mm * s.radius_mm - glm::dot(aside, aside);
    if (along <= 0 || inside <= 0) return {};
    return {along - std::sqrt(inside)};
}

}  // namespace rakelight
