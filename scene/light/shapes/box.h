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

namespace shape_detail {

inline BodyParts visible_parts(const BoxShape& s, const glm::vec3& q) {
    BodyParts parts;
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

}  // namespace shape_detail

/// A point of what is seen of it; pdf 0 from within.
inline ShapeSample sample(const BoxShape& s, const EmitterPose& pose, const glm::vec3& from_mm,
                          const glm::vec2& u) {
    using namespace shape_detail;
    const glm::vec3 q = pose.to_local(from_mm - pose.centre_mm);
    const BodyParts parts = visible_parts(s, q);
    const PickedPart picked = pick(parts, u.x);
    if (picked.part == 3) return {};
    const auto k = static_cast<int>(picked.part);
    glm::vec3 p{}, normal{};
    p[k] = normal[k] = std::copysign(1.0f, q[k]);
    p[(k + 1) % 3] = 2 * picked.left - 1;
    p[(k + 2) % 3] = 2 * u.y - 1;
    p *= s.half_mm;
    return toward_part(pose, parts, picked.part, q, p, normal);
}

/// Density per steradian with which `sample` gives a direction that meets the shape at `distance_mm`.
inline float pdf(const BoxShape& s, const EmitterPose& pose, const glm::vec3& from_mm,
                 const glm::vec3& direction, float distance_mm) {
    using namespace shape_detail;
    const glm::vec3 q = pose.to_local(from_mm - pose.centre_mm), d = pose.to_local(direction);
    const glm::vec3 p = q + d * distance_mm;
    const glm::vec3 out = glm::abs(p) - s.half_mm;
    const int k = out.x > out.y ? (out.x > out.z ? 0 : 2) : (out.y > out.z ? 1 : 2);
    glm::vec3 normal(0);
    normal[k] = std::copysign(1.0f, p[k]);
    return part_pdf(visible_parts(s, q), static_cast<std::size_t>(k), distance_mm * distance_mm,
                    -glm::dot(d, normal));
}

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
