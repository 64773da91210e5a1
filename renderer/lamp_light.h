// Lamps as seen from a point: how to aim at one, how likely that was, and which one a ray runs into.
#pragma once

#include <glm/glm.hpp>
#include <numbers>

#include "materials/circle.h"
#include "scene/emitter.h"

namespace rakelight {

/// Two unit vectors that complete a unit normal to a right-handed frame (Duff et al. 2017, "Building an
/// Orthonormal Basis, Revisited", JCGT 6(1)).
struct Basis {
    glm::vec3 x, y, z;
    explicit Basis(const glm::vec3& n) : z(n) {
        const float sign = std::copysign(1.0f, n.z);
        const float a = -1.0f / (sign + n.z);
        const float b = n.x * n.y * a;
        x = {1 + sign * n.x * n.x * a, sign * b, -sign * n.x};
        y = {b, sign + n.y * n.y * a, -n.y};
    }
    glm::vec3 to_local(const glm::vec3& v) const { return {glm::dot(v, x), glm::dot(v, y), glm::dot(v, z)}; }
    glm::vec3 to_world(const glm::vec3& v) const { return v.x * x + v.y * y + v.z * z; }
};

/// A direction toward a lamp. `pdf` per steradian for this lamp alone; 0 when nothing comes from there.
struct LampSample {
    glm::vec3 direction{};
    float distance_mm = 0;
    float cd_per_m2 = 0;
    float pdf = 0;
};

/// Where a ray meets a lamp's luminous face.
struct LampHit {
    float distance_mm = 0;
    float cd_per_m2 = 0;
    std::uint32_t lamp = 0;
};

/// Luminous face of a lamp, mm2; of a sphere, its disc as seen.
inline float luminous_face_mm2(const Emitter& e) {
    return e.shape == EmitterShape::rectangle ? 4 * e.half_width_mm * e.half_height_mm
                                              : std::numbers::pi_v<float> * e.half_width_mm * e.half_width_mm;
}

namespace lamp_detail {

inline float sphere_cone_cosine(const Emitter& e, float distance2) {
    const float sin2 = e.half_width_mm * e.half_width_mm / distance2;
    return std::sqrt(std::max(0.0f, 1 - sin2));
}

inline float cone_pdf(float cosine) {
    return 1 / (2 * std::numbers::pi_v<float> * std::max(1 - cosine, 1e-7f));
}

}  // namespace lamp_detail

/// A uniformly distributed point of the lamp's luminous face (of a sphere: of its cone of directions).
inline LampSample aim_at(const Emitter& e, const glm::vec3& from_mm, const glm::vec2& u) {
    LampSample s;
    if (e.shape == EmitterShape::sphere) {
        const glm::vec3 to = e.centre_mm - from_mm;
        const float d2 = glm::dot(to, to);
        if (d2 <= e.half_width_mm * e.half_width_mm) return s;
        const float widest = lamp_detail::sphere_cone_cosine(e, d2);
        const float cosine = 1 - u.x * (1 - widest);
        const float sine = std::sqrt(std::max(0.0f, 1 - cosine * cosine));
        const float d = std::sqrt(d2);
        s.direction = Basis(to / d).to_world(glm::vec3(sine * circle_point(u.y), cosine));
        const float along = d * cosine;
        s.distance_mm =
            along - std::sqrt(std::max(0.0f, along * along - d2 + e.half_width_mm * e.half_width_mm));
        s.cd_per_m2 = e.peak_cd_per_m2;
        s.pdf = lamp_detail::cone_pdf(widest);
        return s;
    }
    glm::vec2 at(2 * u.x - 1, 2 * u.y - 1);
    if (e.shape == EmitterShape::disc) at = std::sqrt(u.x) * circle_point(u.y);
    const glm::vec3 to =
        e.centre_mm + e.u * (at.x * e.half_width_mm) + e.v * (at.y * e.half_height_mm) - from_mm;
    const float d2 = glm::dot(to, to);
    s.distance_mm = std::sqrt(d2);
    s.direction = to / s.distance_mm;
    const float cosine = -glm::dot(s.direction, e.axis);
    if (cosine <= 0) return s;
    s.cd_per_m2 = luminance_cd_per_m2(e, cosine);
    s.pdf = d2 / (cosine * luminous_face_mm2(e));
    return s;
}

/// Probability density per steradian with which `aim_at` gives a direction that meets the lamp at
/// `distance_mm`.
inline float aim_pdf(const Emitter& e, const glm::vec3& from_mm, const glm::vec3& direction,
                     float distance_mm) {
    if (e.shape == EmitterShape::sphere) {
        const glm::vec3 to = e.centre_mm - from_mm;
        return lamp_detail::cone_pdf(lamp_detail::sphere_cone_cosine(e, glm::dot(to, to)));
    }
    const float cosine = -glm::dot(direction, e.axis);
    return cosine > 0 ? distance_mm * distance_mm / (cosine * luminous_face_mm2(e)) : 0;
}

/// Whether a ray meets this lamp (number `lamp`) nearer than `nearest` so far; if so it takes its place.
inline void meet_lamp(const Emitter& e, std::uint32_t lamp, const glm::vec3& from_mm,
                      const glm::vec3& direction, LampHit& nearest) {
    const glm::vec3 to = e.centre_mm - from_mm;
    if (e.shape == EmitterShape::sphere) {
        const float along = glm::dot(to, direction);
        const glm::vec3 aside = to - along * direction;
        const float inside = e.half_width_mm * e.half_width_mm - glm::dot(aside, aside);
        if (along <= 0 || inside <= 0) return;
        const float t = along - std::sqrt(inside);
        if (t > 0 && t < nearest.distance_mm) nearest = {t, e.peak_cd_per_m2, lamp};
        return;
    }
    const float toward = glm::dot(direction, e.axis);
    if (toward >= 0) return;
    const float t = glm::dot(to, e.axis) / toward;
    if (t <= 0 || t >= nearest.distance_mm) return;
    const glm::vec3 at = direction * t - to;
    const float x = glm::dot(at, e.u);
    const float y = glm::dot(at, e.v);
    const bool within = e.shape == EmitterShape::disc
                            ? x * x + y * y < e.half_width_mm * e.half_width_mm
                            : std::abs(x) < e.half_width_mm && std::abs(y) < e.half_height_mm;
    if (within) nearest = {t, luminance_cd_per_m2(e, -toward), lamp};
}

}  // namespace rakelight
