// A rectangle that shines to one side.
#pragma once

#include <cmath>

#include "scene/light/shapes/flat_shape.h"

namespace rakelight {

struct RectangleShape {
    static constexpr bool kOneSided = true;
    glm::vec2 half_mm{30};  ///< along u and v
    friend bool operator==(const RectangleShape&, const RectangleShape&) = default;
};

/// Area of the luminous face.
inline float area_mm2(const RectangleShape& s) {
    return 4 * s.half_mm.x * s.half_mm.y;
}

/// Radius of the ball round the centre that holds the shape.
inline float reach_mm(const RectangleShape& s) {
    return std::hypot(s.half_mm.x, s.half_mm.y);
}

/// The face as eight lanes sample it.
inline FlatFace flat_face(const RectangleShape& s) {
    return {s.half_mm, true, false};
}

/// A point of the face from two numbers in [0, 1), evenly over its area, along u and v.
inline glm::dvec2 face_point_mm(const RectangleShape& s, double a, double b) {
    return glm::dvec2(2 * a - 1, 2 * b - 1) * glm::dvec2(s.half_mm);
}

/// A point of the shape of half size 1 along u and v, evenly over its area, from two numbers in [0, 1).
inline glm::vec2 unit_point(const RectangleShape&, const glm::vec2& u) {
    return {2 * u.x - 1, 2 * u.y - 1};
}

/// Whether the shape of half size 1 holds a point along u and v; its rim is no part of it.
inline bool holds_unit_point(const RectangleShape&, const glm::vec2& p) {
    return std::abs(p.x) < 1 && std::abs(p.y) < 1;
}

}  // namespace rakelight
