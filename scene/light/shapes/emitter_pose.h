// The pose of an emitter, and what its shapes answer with. Every shape has a file NAME.h here with the same
// free functions: area_mm2, reach_mm, projected_mm2, even_candela, sample, pdf and intersect.
#pragma once

#include <cmath>
#include <glm/glm.hpp>

namespace rakelight {

/// Where a shape stands and how it is turned: a rigid frame, room millimetres shifted to the panel's centre.
/// Flat shapes shine towards `axis`; box and cylinder stand along it.
struct EmitterPose {
    glm::vec3 centre_mm{};
    glm::vec3 axis{0, 0, 1};  ///< unit
    glm::vec3 u{1, 0, 0};     ///< unit, in a flat shape
    glm::vec3 v{0, 1, 0};     ///< unit, in a flat shape

    /// A direction along u, v and axis.
    glm::vec3 to_local(const glm::vec3& d) const {
        return {glm::dot(d, u), glm::dot(d, v), glm::dot(d, axis)};
    }
};

/// A direction towards a shape. `pdf` per steradian; 0 = nothing comes from there.
struct ShapeSample {
    glm::vec3 direction{};
    float distance_mm = 0;
    float pdf = 0;
    glm::vec2 at_mm{0};  ///< of a flat shape: the point along u and v
};

/// Where a ray meets a shape from its bright side; distance 0 = it does not.
struct ShapeHit {
    float distance_mm = 0;
    glm::vec2 at_mm{0};  ///< of a flat shape: the point along u and v
};

/// A flat shape as eight lanes sample it; others are sampled one at a time.
struct FlatFace {
    glm::vec2 half_mm{1};
    bool is_flat = false;
    bool is_round = false;  ///< an ellipse, else a rectangle
};

/// What a shape answers that is not flat.
template <class Shape>
FlatFace flat_face(const Shape&) {
    return {};
}
template <class Shape>
glm::dvec2 face_point_mm(const Shape&, double, double) {
    return glm::dvec2(0);
}

/// Where a ray meets the plane of a flat shape.
inline ShapeHit intersect_plane(const EmitterPose& pose, const glm::vec3& from_mm,
                                const glm::vec3& direction) {
    const float toward = glm::dot(direction, pose.axis);
    if (toward >= 0) return {};
    const glm::vec3 to = pose.centre_mm - from_mm;
    const float t = glm::dot(to, pose.axis) / toward;
    if (t <= 0) return {};
    const glm::vec3 at = direction * t - to;
    return {t, {glm::dot(at, pose.u), glm::dot(at, pose.v)}};
}

/// The direction to a point of a flat shape, taken evenly over its area.
inline ShapeSample sample_plane(const EmitterPose& pose, float area_mm2, const glm::vec3& from_mm,
                                const glm::vec2& at_mm) {
    ShapeSample s;
    s.at_mm = at_mm;
    const glm::vec3 to = pose.centre_mm + pose.u * at_mm.x + pose.v * at_mm.y - from_mm;
    const float d2 = glm::dot(to, to);
    s.distance_mm = std::sqrt(d2);
    s.direction = to / s.distance_mm;
    const float cosine = -glm::dot(s.direction, pose.axis);
    if (cosine > 0) s.pdf = d2 / (cosine * area_mm2);
    return s;
}

/// Density per steradian with which `sample_plane` gives a direction.
inline float plane_pdf(const EmitterPose& pose, float area_mm2, const glm::vec3& direction,
                       float distance_mm) {
    const float cosine = -glm::dot(direction, pose.axis);
    return cosine > 0 ? distance_mm * distance_mm / (cosine * area_mm2) : 0;
}

}  // namespace rakelight
