// A box that shines all round.
#pragma once

#include <numbers>

#include "scene/light/shapes/body_parts.h"

namespace rakelight {

struct BoxShape {
    static constexpr bool kOneSided = false;
    glm::vec3 half_mm{30};  ///< along u, v and axis
    friend bool operator==(const BoxShape&, const BoxShape&) = default;
};

/// Mean area of its three faces.
inline float area_mm2(const BoxShape& s) {
    const float w = s.half_mm.x, h = s.half_mm.y, d = s.half_mm.z;
    return 4.0f / 3 * (w * h + h * d + d * w);
}

/// Radius of the ball round the centre that holds the shape.
inline float reach_mm(const BoxShape& s) {
    return glm::length(s.half_mm);
}

/// Luminous area as seen from a unit direction in the pose's frame.
inline float projected_mm2(const BoxShape& s, const glm::vec3& local) {
    const float w = s.half_mm.x, h = s.half_mm.y, d = s.half_mm.z;
    return 4 * (w * h * std::abs(local.z) + h * d * std::abs(local.x) + d * w * std::abs(local.y));
}

/// Candela over area_mm2 of an even luminance that gives `lumen`: it gives pi L times its surface, six times
/// the mean of its faces.
inline double even_candela(const BoxShape&, double lumen) {
    return lumen / (6 * std::numbers::pi);
}

/// Part k is the face that looks along axis k of the pose's frame, to the side where `q` is.
inline shape_detail::BodyParts visible_parts(const BoxShape& s, const glm::vec3& q) {
    shape_detail::BodyParts parts;
    const glm::vec3& h = s.half_mm;
    for (int k = 0; k < 3; ++k) {
        const float above = std::abs(q[k]) - h[k];
        if (above <= 0) continue;
        const int i = (k + 1) % 3, j = (k + 2) % 3;
        const float d2 = above * above + q[i] * q[i] + q[j] * q[j];
        parts.add(static_cast<std::size_t>(k), 4 * h[i] * h[j], above, d2);
    }
    parts.normalise();
    return parts;
}

/// A point of a part that is seen from `q`, evenly over its area.
inline shape_detail::BodyPoint point_of_part(const BoxShape& s, const shape_detail::BodyParts&,
                                             const shape_detail::PickedPart& picked, const glm::vec3& q,
                                             float v) {
    const auto k = static_cast<int>(picked.part);
    shape_detail::BodyPoint p;
    p.at_mm[k] = p.normal[k] = std::copysign(1.0f, q[k]);
    p.at_mm[(k + 1) % 3] = 2 * picked.left - 1;
    p.at_mm[(k + 2) % 3] = 2 * v - 1;
    p.at_mm *= s.half_mm;
    return p;
}

/// The part on which a point of the surface lies.
inline shape_detail::BodyPart part_at(const BoxShape& s, const glm::vec3& p) {
    const glm::vec3 out = glm::abs(p) - s.half_mm;
    const int k = out.x > out.y ? (out.x > out.z ? 0 : 2) : (out.y > out.z ? 1 : 2);
    shape_detail::BodyPart met{static_cast<std::size_t>(k)};
    met.normal[k] = std::copysign(1.0f, p[k]);
    return met;
}

/// Where a ray enters it; none when it starts within.
inline ShapeHit intersect(const BoxShape& s, const EmitterPose& pose, const glm::vec3& from_mm,
                          const glm::vec3& direction) {
    const glm::vec3 q = pose.to_local(from_mm - pose.centre_mm), d = pose.to_local(direction);
    shape_detail::Stretch stretch;
    stretch.cut(q.z, d.z, s.half_mm.z);
    stretch.cut(q.x, d.x, s.half_mm.x);
    stretch.cut(q.y, d.y, s.half_mm.y);
    return stretch.hit();
}

}  // namespace rakelight
