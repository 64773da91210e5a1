// A disc or ellipse that shines to one side.
#pragma once

#include <algorithm>
#include <cmath>
#include <numbers>

#include "materials/maths/circle.h"
#include "scene/light/shapes/emitter_pose.h"

namespace rakelight {

struct DiscShape {
    static constexpr bool kOneSided = true;
    glm::vec2 half_mm{30};  ///< along u and v
    friend bool operator==(const DiscShape&, const DiscShape&) = default;
};

/// Area of the luminous face.
inline float area_mm2(const DiscShape& s) {
    return std::numbers::pi_v<float> * s.half_mm.x * s.half_mm.y;
}

/// Radius of the ball round the centre that holds the shape.
inline float reach_mm(const DiscShape& s) {
    return std::max(s.half_mm.x, s.half_mm.y);
}

/// Luminous area as seen from a unit direction in the pose's frame.
inline float projected_mm2(const DiscShape& s, const glm::vec3& local) {
    return area_mm2(s) * std::max(local.z, 0.0f);
}

/// Candela on the axis of a face of even luminance that gives `lumen`.
inline double even_candela(const DiscShape&, double lumen) {
    return lumen / std::numbers::pi;
}

inline FlatFace flat_face(const DiscShape& s) {
    return {s.half_mm, true, true};
}

/// A point of the face from two numbers in [0, 1), evenly over its area, along u and v.
inline glm::dvec2 face_point_mm(const DiscShape& s, double a, double b) {
    const double turn = 2 * std::numbers::pi * b;
    return std::sqrt(a) * glm::dvec2(std::cos(turn), std::sin(turn)) * glm::dvec2(s.half_mm);
}

/// A uniformly distributed point of the face.
inline ShapeSample sample(const DiscShape& s, const EmitterPose& pose, const glm::vec3& from_mm,
                          const glm::vec2& u) {
    return sample_plane(pose, area_mm2(s), from_mm, std::sqrt(u.x) * circle_point(u.y) * s.half_mm);
}

/// Density per steradian with which `sample` gives a direction that meets the shape at `distance_mm`.
inline float pdf(const DiscShape& s, const EmitterPose& pose, const glm::vec3&, const glm::vec3& direction,
                 float distance_mm) {
    return plane_pdf(pose, area_mm2(s), direction, distance_mm);
}

inline ShapeHit intersect(const DiscShape& s, const EmitterPose& pose, const glm::vec3& from_mm,
                          const glm::vec3& direction) {
    const ShapeHit hit = intersect_plane(pose, from_mm, direction);
    const float a = hit.at_mm.x / s.half_mm.x, b = hit.at_mm.y / s.half_mm.y;
    return a * a + b * b < 1 ? hit : ShapeHit{};
}

}  // namespace rakelight
