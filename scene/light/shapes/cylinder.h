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

/// Part 0 is the side, part 2 the end.
inline shape_detail::BodyParts visible_parts(const CylinderShape& s, const glm::vec3& q) {
    shape_detail::BodyParts parts;
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

/// A point of a part that is seen from `q`, evenly over its area.
inline shape_detail::BodyPoint point_of_part(const CylinderShape& s, const shape_detail::BodyParts& parts,
                                             const shape_detail::PickedPart& picked, const glm::vec3& q,
                                             float v) {
    shape_detail::BodyPoint p;
    if (picked.part == 2) {
        p.at_mm = {std::sqrt(picked.left) * s.radius_mm * circle_point(v),
                   std::copysign(s.half_length_mm, q.z)};
        p.normal.z = std::copysign(1.0f, q.z);
        return p;
    }
    const glm::vec2 toward = glm::normalize(glm::vec2(q));
    float turn = (2 * picked.left - 1) * parts.half_turn;
    if (turn < 0) turn += 1;
    const glm::vec2 c = circle_point(turn);
    p.normal = {toward.x * c.x - toward.y * c.y, toward.x * c.y + toward.y * c.x, 0};
    p.at_mm = p.normal * s.radius_mm;
    p.at_mm.z = (2 * v - 1) * s.half_length_mm;
    return p;
}

/// The part on which a point of the surface lies.
inline shape_detail::BodyPart part_at(const CylinderShape& s, const glm::vec3& p) {
    const float from_axis = std::hypot(p.x, p.y);
    if (std::abs(p.z) - s.half_length_mm > from_axis - s.radius_mm)
        return {2, glm::vec3(0, 0, std::copysign(1.0f, p.z))};
    return {0, glm::vec3(p.x, p.y, 0) / std::max(from_axis, 1e-6f)};
}

/// Where a ray enters it; none when it starts within.
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
