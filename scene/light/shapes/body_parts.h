// Sampling of a convex luminous body by its visible parts: what box and cylinder share. What is seen of a box
// from a point is up to three faces, of a cylinder one end and a strip of the side. Being convex, no part
// hides another, so a direction meets exactly one of them. Each body says what is its own: area_mm2,
// reach_mm, projected_mm2, even_candela, intersect and, of its parts, visible_parts, point_of_part and
// part_at.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <concepts>
#include <cstddef>

#include "scene/light/shapes/emitter_pose.h"

namespace rakelight::shape_detail {

/// The parts that may be seen from a point, each with the chance of being chosen, by about the solid angle it
/// fills.
struct BodyParts {
    std::array<float, 3> chance{};
    std::array<float, 3> area_mm2{};
    float half_turn = 0;  ///< of the strip of a cylinder's side that is seen, in turns

    /// A part of so much area, its plane `above_mm` away, its middle the root of `d2_mm2`.
    void add(std::size_t part, float area, float above_mm, float d2_mm2) {
        area_mm2[part] = area;
        chance[part] = area * above_mm / (d2_mm2 * std::sqrt(d2_mm2));
    }
    /// Makes the chances add up to 1, unless nothing is seen.
    void normalise() {
        const float total = chance[0] + chance[1] + chance[2];
        if (total > 0)
            for (float& c : chance) c /= total;
    }
};

/// A part chosen by a uniform number, and what is left of the number; part 3 = none is seen.
struct PickedPart {
    std::size_t part = 3;
    float left = 0;
};

/// `u` in [0, 1).
inline PickedPart pick(const BodyParts& parts, float u) {
    PickedPart r;
    for (std::size_t k = 0; k < 3; ++k) {
        if (parts.chance[k] <= 0) continue;
        r.part = k;
        if (u < parts.chance[k]) break;
        u -= parts.chance[k];
    }
    if (r.part < 3) r.left = std::min(u / parts.chance[r.part], 0.99999994f);
    return r;
}

/// Density per steradian of a direction to a point of a part, the root of `d2` (mm2) away, that the ray meets
/// at `cosine`; 0 from behind.
inline float part_pdf(const BodyParts& parts, std::size_t part, float d2, float cosine) {
    if (cosine <= 0 || parts.chance[part] <= 0) return 0;
    return parts.chance[part] * d2 / (cosine * parts.area_mm2[part]);
}

/// A point of a body's surface in the pose's frame.
struct BodyPoint {
    glm::vec3 at_mm{};
    glm::vec3 normal{};  ///< outward, unit
};

/// A part of a body, and its outward normal in the pose's frame.
struct BodyPart {
    std::size_t part = 0;
    glm::vec3 normal{};
};

/// The direction from `q` to a point `p` of a part (local).
inline ShapeSample toward_part(const EmitterPose& pose, const BodyParts& parts, std::size_t part,
                               const glm::vec3& q, const BodyPoint& p) {
    const glm::vec3 to = p.at_mm - q;
    const float d2 = glm::dot(to, to);
    ShapeSample r;
    r.distance_mm = std::sqrt(d2);
    const glm::vec3 d = to / r.distance_mm;
    const float density = part_pdf(parts, part, d2, -glm::dot(d, p.normal));
    if (density <= 0) return {};
    r.direction = pose.u * d.x + pose.v * d.y + pose.axis * d.z;
    r.pdf = density;
    return r;
}

/// The stretch of a ray within a body, cut down slab by slab.
struct Stretch {
    float enter = -1e30f, leave = 1e30f;

    /// Keeps what lies within `half` of the middle: the ray is at `at` and goes `along` a unit of distance.
    void cut(float at, float along, float half) {
        if (std::abs(along) < 1e-12f) {
            if (std::abs(at) > half) enter = 1e30f;
            return;
        }
        const float a = (-half - at) / along, b = (half - at) / along;
        enter = std::max(enter, std::min(a, b));
        leave = std::min(leave, std::max(a, b));
    }
    /// Where the ray enters; none when it does not, or starts inside.
    ShapeHit hit() const { return {enter < leave && enter > 0 ? enter : 0}; }
};

}  // namespace rakelight::shape_detail

namespace rakelight {

/// Shines all round, and knows which of its parts are seen from a point of the pose's frame.
template <class Shape>
concept ConvexShape = requires(const Shape& s, const glm::vec3& q) {
    { visible_parts(s, q) } -> std::same_as<shape_detail::BodyParts>;
};

/// A point of what is seen of it; pdf 0 from within.
template <ConvexShape Shape>
ShapeSample sample(const Shape& s, const EmitterPose& pose, const glm::vec3& from_mm, const glm::vec2& u) {
    const glm::vec3 q = pose.to_local(from_mm - pose.centre_mm);
    const shape_detail::BodyParts parts = visible_parts(s, q);
    const shape_detail::PickedPart picked = shape_detail::pick(parts, u.x);
    if (picked.part == 3) return {};
    return toward_part(pose, parts, picked.part, q, point_of_part(s, parts, picked, q, u.y));
}

/// Density per steradian with which `sample` gives a direction that meets the shape at `distance_mm`.
template <ConvexShape Shape>
float pdf(const Shape& s, const EmitterPose& pose, const glm::vec3& from_mm, const glm::vec3& direction,
          float distance_mm) {
    const glm::vec3 q = pose.to_local(from_mm - pose.centre_mm), d = pose.to_local(direction);
    const shape_detail::BodyPart met = part_at(s, q + d * distance_mm);
    return part_pdf(visible_parts(s, q), met.part, distance_mm * distance_mm, -glm::dot(d, met.normal));
}

}  // namespace rakelight
