// A cylinder that stands along its axis and shines all round.
#pragma once

#include <numbers>

#include "materials/maths/circle.h"
#include "scene/light/shapes/body_parts.h"

namespace rakelight {

struct CylinderShape {
    static constexpr bool kOneSided = false;
    float radius_mm = 30;
    float half_length_mm = 30;
    friend bool operator==(const CylinderShape&, const CylinderShape&) = default;
};

/// Area as it is seen from the side.
inline float area_mm2(const CylinderShape& s) {
    return 4 * s.radius_mm * s.half_length_mm;
}

/// Radius of the ball round the centre that holds the shape.
inline float reach_mm(const CylinderShape& s) {
    return std::hypot(s.radius_mm, s.half_length_mm);
}

/// Luminous area as seen from a unit direction in the pose's frame.
inline float projected_mm2(const CylinderShape& s, const glm::vec3& local) {
    const float w = s.radius_mm, d = s.half_length_mm, z = local.z;
    return std::numbers::pi_v<float> * w * w * std::abs(z) + 4 * w * d * std::sqrt(std::max(0.0f, 1 - z * z));
}

/// Candela sideways of an even luminance that gives `lumen`: it gives pi L times its surface.
inline double even_candela(const CylinderShape& s, double lumen) {
    constexpr double kPi = std::numbers::pi;
    const double r = s.radius_mm, h = 2.0 * s.half_length_mm;
    return lumen * area_mm2(s) / (kPi * (2 * kPi * r * r + 2 * kPi * r * h));
}

namespace shape_detail {

// Part 0 is the side, part 2 the end.
inline BodyParts visible_parts(const CylinderShape& s, const glm::vec3& q) {
    BodyParts parts;
    const float r = s.radius_mm, d = s.half_length_mm;
    const float from_axis = std::hypot(q.x, q.y);
    if (from_axis > r) {
        parts.half_turn = std::acos(r / from_axis) * (0.5f / std::numbers::pi_v<float>);
        const float seen = 4 * std::numbers::pi_v<float> * parts.half_turn * r * 2 * d;
        parts.add(0, seen, from_axis - r, from_axis * from_axis + q.z * q.z);
    }
    const float above = std::abs(q.z) - d;
    if (above > 0)
        parts.add(2, std::numbers::pi_v<float> * r * r, above, above * above + from_axis * from_axis);
    parts.normalise();
    return parts;
}

}  // namespace shape_detail

/// A point of what is seen of it; pdf 0 from within.
inline ShapeSample sample(const CylinderShape& s, const EmitterPose& pose, const glm::vec3& from_mm,
                          const glm::vec2& u) {
    using namespace shape_detail;
    const glm::vec3 q = pose.to_local(from_mm - pose.centre_mm);
    const BodyParts parts = visible_parts(s, q);
    const PickedPart picked = pick(parts, u.x);
    if (picked.part == 3) return {};
    glm::vec3 p{}, normal{};
    if (picked.part == 2) {
        p = {std::sqrt(picked.left) * s.radius_mm * circle_point(u.y), std::copysign(s.half_length_mm, q.z)};
        normal.z = std::copysign(1.0f, q.z);
    } else {
        const glm::vec2 toward = glm::normalize(glm::vec2(q));
        float turn = (2 * picked.left - 1) * parts.half_turn;
        if (turn < 0) turn += 1;
        const glm::vec2 c = circle_point(turn);
        normal = {toward.x * c.x - toward.y * c.y, toward.x * c.y + toward.y * c.x, 0};
        p = normal * s.radius_mm;
        p.z = (2 * u.y - 1) * s.half_length_mm;
    }
    return toward_part(pose, parts, picked.part, q, p, normal);
}

/// Density per steradian with which `sample` gives a direction that meets the shape at `distance_mm`.
inline float pdf(const CylinderShape& s, const EmitterPose& pose, const glm::vec3& from_mm,
                 const glm::vec3& direction, float distance_mm) {
    using namespace shape_detail;
    const glm::vec3 q = pose.to_local(from_mm - pose.centre_mm), d = pose.to_local(direction);
    const glm::vec3 p = q + d * distance_mm;
    const float from_axis = std::hypot(p.x, p.y);
    const bool end = std::abs(p.z) - s.half_length_mm > from_axis - s.radius_mm;
    const glm::vec3 normal =
        end ? glm::vec3(0, 0, std::copysign(1.0f, p.z)) : glm::vec3(p.x, p.y, 0) / std::max(from_axis, 1e-6f);
    return part_pdf(visible_parts(s, q), end ? 2 : 0, distance_mm * distance_mm, -glm::dot(d, normal));
}

inline ShapeHit intersect(const CylinderShape& s, const EmitterPose& pose, const glm::vec3& from_mm,
                          const glm::vec3& direction) {
    const glm::vec3 q = pose.to_local(from_mm - pose.centre_mm), d = pose.to_local(direction);
    shape_detail::Stretch stretch;
    stretch.cut(q.z, d.z, s.half_length_mm);
    const float a = d.x * d.x + d.y * d.y;
    const float b = q.x * d.x + q.y * d.y;
    const float c = q.x * q.x + q.y * q.y - s.radius_mm * s.radius_mm;
    if (a < 1e-12f) {
        if (c > 0) return {};
    } else {
        // The distance of the ray from the axis, and not b^2 - a c, which cancels far away.
        const float aside = q.x * d.y - q.y * d.x;
        const float inside = s.radius_mm * s.radius_mm * a - aside * aside;
        if (inside <= 0) return {};
        const float root = std::sqrt(inside);
        stretch.enter = std::max(stretch.enter, (-b - root) / a);
        stretch.leave = std::min(stretch.leave, (-b + root) / a);
    }
    return stretch.hit();
}

}  // namespace rakelight
