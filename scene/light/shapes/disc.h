// A disc or ellipse that shines to one side.
#pragma once

#include <algorithm>
#include <cmath>
#include <numbers>

#include "materials/maths/circle.h"
#include "scene/light/shapes/flat_shape.h"

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

/// The face as eight lanes sample it.
inline FlatFace flat_face(const DiscShape& s) {
    return {s.half_mm, true, true};
}

/// A point of the face from two numbers in [0, 1), evenly over its area, along u and v.
inline glm::dvec2 face_point_mm(const DiscShape& s, double a, double b) {
    const double turn = 2 * std::numbers::pi * b;
    return std::sqrt(a) * glm::dvec2(std::cos(turn), std::sin(turn)) * glm::dvec2(s.half_mm);
}

/// A point of the shape of half size 1 along u and v, evenly over its area, from two numbers in [0, 1).
inline glm::vec2 unit_point(const DiscShape&, const glm::vec2& u) {
    return std::sqrt(u.x) * circle_point(u.y);
}

/// Whether the shape of half size 1 holds a point along u and v; its rim is no part of it.
inline bool holds_unit_point(const DiscShape&, const glm::vec2& p) {
    return p.x * p.x + p.y * p.y < 1;
}

}  // namespace rakelight
