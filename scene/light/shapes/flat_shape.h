// Sampling of a flat luminous shape by its area: what disc and rectangle share. Each says what is its own:
// area_mm2, reach_mm, flat_face, face_point_mm, unit_point and holds_unit_point.
#pragma once

#include <algorithm>
#include <concepts>
#include <numbers>

#include "scene/light/shapes/emitter_pose.h"

namespace rakelight {

/// Shines to one side of a plane, and reaches `half_mm` along u and v.
template <class Shape>
concept FlatShape = Shape::kOneSided && std::same_as<decltype(Shape::half_mm), glm::vec2>;

/// Luminous area as seen from a unit direction in the pose's frame; 0 from behind.
template <FlatShape Shape>
float projected_mm2(const Shape& s, const glm::vec3& local) {
    return area_mm2(s) * std::max(local.z, 0.0f);
}

/// Candela on the axis, over area_mm2, of a face of even luminance that gives `lumen`.
template <FlatShape Shape>
double even_candela(const Shape&, double lumen) {
    return lumen / std::numbers::pi;
}

/// A uniformly distributed point of the face, from two numbers in [0, 1); pdf 0 from behind.
template <FlatShape Shape>
ShapeSample sample(const Shape& s, const EmitterPose& pose, const glm::vec3& from_mm, const glm::vec2& u) {
    return sample_plane(pose, area_mm2(s), from_mm, unit_point(s, u) * s.half_mm);
}

/// Density per steradian with which `sample` gives a direction that meets the shape at `distance_mm`.
template <FlatShape Shape>
float pdf(const Shape& s, const EmitterPose& pose, const glm::vec3&, const glm::vec3& direction,
          float distance_mm) {
    return plane_pdf(pose, area_mm2(s), direction, distance_mm);
}

/// Where a ray meets the face from its bright side; its rim is no part of it.
template <FlatShape Shape>
ShapeHit intersect(const Shape& s, const EmitterPose& pose, const glm::vec3& from_mm,
                   const glm::vec3& direction) {
    const ShapeHit hit = intersect_plane(pose, from_mm, direction);
    return holds_unit_point(s, hit.at_mm / s.half_mm) ? hit : ShapeHit{};
}

}  // namespace rakelight
