// Lamps that are bodies, box and cylinder: what is seen of one from a point is up to three faces, or one end
// and a strip of the side. Being convex, no part hides another, so a direction meets exactly one of them.
#pragma once

#include <array>
#include <cmath>
#include <glm/glm.hpp>
#include <numbers>

#include "materials/maths/circle.h"
#include "scene/light/emitter.h"

namespace rakelight {

inline bool is_body(const Emitter& e) {
    return e.shape == EmitterShape::box || e.shape == EmitterShape::cylinder;
}

/// Radius of the ball round the centre that holds the lamp.
inline float reach_mm(const Emitter& e) {
    switch (e.shape) {
        case EmitterShape::disc:
            return std::max(e.half_width_mm, e.half_height_mm);
        case EmitterShape::sphere:
            return e.half_width_mm;
        case EmitterShape::rectangle:
        case EmitterShape::sun:
            return std::hypot(e.half_width_mm, e.half_height_mm);
        case EmitterShape::cylinder:
            return std::hypot(e.half_width_mm, e.half_depth_mm);
        case EmitterShape::box:
            return glm::length(glm::vec3(e.half_width_mm, e.half_height_mm, e.half_depth_mm));
    }
    return 0;
}

/// A direction toward a body; pdf per steradian, 0 when the point lies inside.
struct BodyPoint {
    glm::vec3 direction{};
    float distance_mm = 0;
    float pdf = 0;
};

namespace body_detail {

inline glm::vec3 to_local(const Emitter& e, const glm::vec3& d) {
    return {glm::dot(d, e.u), glm::dot(d, e.v), glm::dot(d, e.axis)};
}

inline glm::vec3 half_sides(const Emitter& e) {
    return {e.half_width_mm, e.half_height_mm, e.half_depth_mm};
}

/// The parts that may be seen from a point (local), each with the chance of being chosen: of a box the faces
/// across x, y, z; of a cylinder the side and the end. By about the solid angle each fills.
struct Parts {
    std::array<float, 3> chance{};
    std::array<float, 3> area_mm2{};
    float half_turn = 0;  ///< of the strip of the side that is seen, in turns

    Parts(const Emitter& e, const glm::vec3& q) {
        if (e.shape == EmitterShape::box) {
            const glm::vec3 h = half_sides(e);
            for (int k = 0; k < 3; ++k) {
                const float above = std::abs(q[k]) - h[k];
                if (above <= 0) continue;
                const int i = (k + 1) % 3, j = (k + 2) % 3;
                const float d2 = above * above + q[i] * q[i] + q[j] * q[j];
                add(static_cast<std::size_t>(k), 4 * h[i] * h[j], above, d2);
            }
        } else {
            const float r = e.half_width_mm, d = e.half_depth_mm;
            const float from_axis = std::hypot(q.x, q.y);
            if (from_axis > r) {
                half_turn = std::acos(r / from_axis) * (0.5f / std::numbers::pi_v<float>);
                const float seen = 4 * std::numbers::pi_v<float> * half_turn * r * 2 * d;
                add(0, seen, from_axis - r, from_axis * from_axis + q.z * q.z);
            }
            const float above = std::abs(q.z) - d;
            if (above > 0)
                add(2, std::numbers::pi_v<float> * r * r, above, above * above + from_axis * from_axis);
        }
        const float total = chance[0] + chance[1] + chance[2];
        if (total > 0)
            for (float& c : chance) c /= total;
    }

  private:
    void add(std::size_t part, float area, float above, float d2) {
        area_mm2[part] = area;
        chance[part] = area * above / (d2 * std::sqrt(d2));
    }
};

/// Which part of the surface a local point of it belongs to, and the outward normal there.
inline std::size_t part_of(const Emitter& e, const glm::vec3& p, glm::vec3& normal) {
    normal = glm::vec3(0);
    if (e.shape == EmitterShape::box) {
        const glm::vec3 out = glm::abs(p) - half_sides(e);
        const int k = out.x > out.y ? (out.x > out.z ? 0 : 2) : (out.y > out.z ? 1 : 2);
        normal[k] = std::copysign(1.0f, p[k]);
        return static_cast<std::size_t>(k);
    }
    const float from_axis = std::hypot(p.x, p.y);
    if (std::abs(p.z) - e.half_depth_mm > from_axis - e.half_width_mm) {
        normal.z = std::copysign(1.0f, p.z);
        return 2;
    }
    normal = glm::vec3(p.x, p.y, 0) / std::max(from_axis, 1e-6f);
    return 0;
}

inline float pdf_of(const Parts& parts, std::size_t part, float d2, float cosine) {
    if (cosine <= 0 || parts.chance[part] <= 0) return 0;
    return parts.chance[part] * d2 / (cosine * parts.area_mm2[part]);
}

}  // namespace body_detail

inline BodyPoint sample_body(const Emitter& e, const glm::vec3& from_mm, const glm::vec2& u) {
    using namespace body_detail;
    const glm::vec3 q = to_local(e, from_mm - e.centre_mm);
    const Parts parts(e, q);
    std::size_t part = 3;
    float pick = u.x;
    for (std::size_t k = 0; k < 3; ++k) {
        if (parts.chance[k] <= 0) continue;
        part = k;
        if (pick < parts.chance[k]) break;
        pick -= parts.chance[k];
    }
    if (part == 3) return {};
    const float first = std::min(pick / parts.chance[part], 0.99999994f);
    const glm::vec3 h = half_sides(e);
    glm::vec3 p{}, normal{};
    if (e.shape == EmitterShape::box) {
        const auto k = static_cast<int>(part);
        p[k] = normal[k] = std::copysign(1.0f, q[k]);
        p[(k + 1) % 3] = 2 * first - 1;
        p[(k + 2) % 3] = 2 * u.y - 1;
        p *= h;
    } else if (part == 2) {
        p = {std::sqrt(first) * e.half_width_mm * circle_point(u.y), std::copysign(h.z, q.z)};
        normal.z = std::copysign(1.0f, q.z);
    } else {
        const glm::vec2 toward = glm::normalize(glm::vec2(q));
        float turn = (2 * first - 1) * parts.half_turn;
        if (turn < 0) turn += 1;
        const glm::vec2 c = circle_point(turn);
        normal = {toward.x * c.x - toward.y * c.y, toward.x * c.y + toward.y * c.x, 0};
        p = normal * e.half_width_mm;
        p.z = (2 * u.y - 1) * h.z;
    }
    const glm::vec3 to = p - q;
    const float d2 = glm::dot(to, to);
    BodyPoint r;
    r.distance_mm = std::sqrt(d2);
    const glm::vec3 d = to / r.distance_mm;
    r.direction = e.u * d.x + e.v * d.y + e.axis * d.z;
    r.pdf = pdf_of(parts, part, d2, -glm::dot(d, normal));
    return r;
}

/// Density with which `sample_body` gives a direction that meets the body at `distance_mm`.
inline float body_pdf(const Emitter& e, const glm::vec3& from_mm, const glm::vec3& direction,
                      float distance_mm) {
    using namespace body_detail;
    const glm::vec3 q = to_local(e, from_mm - e.centre_mm), d = to_local(e, direction);
    glm::vec3 normal;
    const std::size_t part = part_of(e, q + d * distance_mm, normal);
    return pdf_of(Parts(e, q), part, distance_mm * distance_mm, -glm::dot(d, normal));
}

/// Distance at which a ray enters the body; 0 when it does not, or starts inside.
inline float intersect_body(const Emitter& e, const glm::vec3& from_mm, const glm::vec3& direction) {
    using namespace body_detail;
    const glm::vec3 q = to_local(e, from_mm - e.centre_mm), d = to_local(e, direction);
    float enter = -1e30f, leave = 1e30f;
    const auto slab = [&](float at, float along, float half) {
        if (std::abs(along) < 1e-12f) {
            if (std::abs(at) > half) enter = 1e30f;
            return;
        }
        const float a = (-half - at) / along, b = (half - at) / along;
        enter = std::max(enter, std::min(a, b));
        leave = std::min(leave, std::max(a, b));
    };
    slab(q.z, d.z, e.half_depth_mm);
    if (e.shape == EmitterShape::box) {
        slab(q.x, d.x, e.half_width_mm);
        slab(q.y, d.y, e.half_height_mm);
    } else {
        const float a = d.x * d.x + d.y * d.y;
        const float b = q.x * d.x + q.y * d.y;
        const float c = q.x * q.x + q.y * q.y - e.half_width_mm * e.half_width_mm;
        if (a < 1e-12f) {
            if (c > 0) return 0;
        } else {
            // The distance of the ray from the axis, and not b^2 - a c, which cancels far away.
            const float aside = q.x * d.y - q.y * d.x;
            const float inside = e.half_width_mm * e.half_width_mm * a - aside * aside;
            if (inside <= 0) return 0;
            const float root = std::sqrt(inside);
            enter = std::max(enter, (-b - root) / a);
            leave = std::min(leave, (-b + root) / a);
        }
    }
    return enter < leave && enter > 0 ? enter : 0;
}

}  // namespace rakelight
