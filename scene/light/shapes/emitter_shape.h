// The luminous shape of an emitter: one of several, each in a file of its own with the same functions. A new
// shape is a file and a member of the variant; one that eight lanes can sample as a flat face also says so
// (flat_face).
#pragma once

#include <variant>

#include "scene/light/shapes/box.h"
#include "scene/light/shapes/cylinder.h"
#include "scene/light/shapes/disc.h"
#include "scene/light/shapes/rectangle.h"
#include "scene/light/shapes/sphere.h"
#include "scene/light/shapes/sun_through_window.h"
#include "scene/light/shapes/surround_part.h"

namespace rakelight {

using EmitterShape = std::variant<DiscShape, SphereShape, RectangleShape, BoxShape, CylinderShape,
                                  SunThroughWindow, SurroundPart>;

/// Whether it shines to one side only, from a plane.
inline bool is_one_sided(const EmitterShape& shape) {
    return std::visit([](const auto& s) { return s.kOneSided; }, shape);
}

/// The functions that every shape has, asked of the one that it is: see its file for what each means.
inline float area_mm2(const EmitterShape& shape) {
    return std::visit([](const auto& s) { return area_mm2(s); }, shape);
}

inline float reach_mm(const EmitterShape& shape) {
    return std::visit([](const auto& s) { return reach_mm(s); }, shape);
}

inline float projected_mm2(const EmitterShape& shape, const glm::vec3& local) {
    return std::visit([&](const auto& s) { return projected_mm2(s, local); }, shape);
}

inline double even_candela(const EmitterShape& shape, double lumen) {
    return std::visit([&](const auto& s) { return even_candela(s, lumen); }, shape);
}

inline ShapeSample sample(const EmitterShape& shape, const EmitterPose& pose, const glm::vec3& from_mm,
                          const glm::vec2& u) {
    return std::visit([&](const auto& s) { return sample(s, pose, from_mm, u); }, shape);
}

inline float pdf(const EmitterShape& shape, const EmitterPose& pose, const glm::vec3& from_mm,
                 const glm::vec3& direction, float distance_mm) {
    return std::visit([&](const auto& s) { return pdf(s, pose, from_mm, direction, distance_mm); }, shape);
}

inline ShapeHit intersect(const EmitterShape& shape, const EmitterPose& pose, const glm::vec3& from_mm,
                          const glm::vec3& direction) {
    return std::visit([&](const auto& s) { return intersect(s, pose, from_mm, direction); }, shape);
}

/// The face of a flat shape for eight lanes; not flat for the others.
inline FlatFace flat_face(const EmitterShape& shape) {
    return std::visit([](const auto& s) { return flat_face(s); }, shape);
}

/// A point of a one-sided shape from two numbers in [0, 1), evenly over its area, along u and v; else the
/// middle.
inline glm::dvec2 face_point_mm(const EmitterShape& shape, double a, double b) {
    return std::visit([&](const auto& s) { return face_point_mm(s, a, b); }, shape);
}

}  // namespace rakelight
