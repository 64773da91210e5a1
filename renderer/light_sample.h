// Lamps as seen from a point: how to aim at one, how likely that was, and which one a ray runs into.
#pragma once

#include <glm/glm.hpp>
#include <numbers>

#include "materials/maths/circle.h"
#include "renderer/lamp_body.h"
#include "scene/light/emitter.h"

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
struct LiSample {
    glm::vec3 direction{};
    float distance_mm = 0;
    float cd_per_m2 = 0;
    float pdf = 0;
};

inline constexpr std::uint32_t kNoLamp = 0xffffffffu;

/// Where a ray meets a lamp's luminous face.
struct LampHit {
    float distance_mm = 0;
    float cd_per_m2 = 0;
    std::uint32_t lamp = kNoLamp;
};

namespace lamp_detail {

/// One less the cosine of the angle by which a sphere reaches from its centre, without the rounding that
/// would drown it for a small lamp far away.
inline float sphere_cone_versine(const Emitter& e, float distance2) {
    const float sin2 = std::min(e.half_width_mm * e.half_width_mm / distance2, 1.0f);
    return sin2 / (1 + std::sqrt(1 - sin2));
}

inline float cone_pdf(float versine) {
    return 1 / (2 * std::numbers::pi_v<float> * std::max(versine, 1e-14f));
}

/// Distance along a ray to the plane of a flat lamp's face if it meets the face from its bright side; else 0.
inline float distance_to_face_mm(const Emitter& e, const glm::vec3& from_mm, const glm::vec3& direction) {
    const float toward = glm::dot(direction, e.axis);
    if (toward >= 0) return 0;
    const glm::vec3 to = e.centre_mm - from_mm;
    const float t = glm::dot(to, e.axis) / toward;
    if (t <= 0) return 0;
    const glm::vec3 at = direction * t - to;
    const float x = glm::dot(at, e.u);
    const float y = glm::dot(at, e.v);
    const float a = x / e.half_width_mm, b = y / e.half_height_mm;
    const bool within =
        e.shape == EmitterShape::disc ? a * a + b * b < 1 : std::abs(a) < 1 && std::abs(b) < 1;
    return within ? t : 0;
}

inline const float kSunSine = static_cast<float>(std::sin(kSunRadius_rad));
inline const float kSunPdf = static_cast<float>(1 / kSunDisc_sr);

inline LiSample sample_sun(const Emitter& e, const glm::vec3& from_mm, const glm::vec2& u) {
    LiSample s;
    const float sine = kSunSine * std::sqrt(u.x);
    s.direction = Basis(e.to_sun).to_world(glm::vec3(sine * circle_point(u.y), std::sqrt(1 - sine * sine)));
    s.distance_mm = distance_to_face_mm(e, from_mm, s.direction);
    if (s.distance_mm <= 0) return s;
    s.cd_per_m2 = e.peak_cd_per_m2;
    s.pdf = kSunPdf;
    return s;
}

// By the cross product: a cosine in single precision cannot tell the disc's rim.
inline bool within_sun(const Emitter& e, const glm::vec3& direction) {
    const glm::vec3 aside = glm::cross(direction, e.to_sun);
    return glm::dot(aside, aside) < kSunSine * kSunSine && glm::dot(direction, e.to_sun) > 0;
}

}  // namespace lamp_detail

/// A uniformly distributed point of the lamp's luminous face (of a sphere and the sun: of its cone of
/// directions; of a body: of what is seen of it).
inline LiSample sample_li(const Emitter& e, const glm::vec3& from_mm, const glm::vec2& u) {
    LiSample s;
    if (is_body(e)) {
        const BodyPoint point = sample_body(e, from_mm, u);
        if (point.pdf <= 0) return s;
        s.direction = point.direction;
        s.distance_mm = point.distance_mm;
        s.pdf = point.pdf;
        s.cd_per_m2 = luminance_cd_per_m2(e, -point.direction, {});
        return s;
    }
    if (e.shape == EmitterShape::sphere) {
        const glm::vec3 to = e.centre_mm - from_mm;
        const float d2 = glm::dot(to, to);
        if (d2 <= e.half_width_mm * e.half_width_mm) return s;
        const float widest = lamp_detail::sphere_cone_versine(e, d2);
        const float versine = u.x * widest, cosine = 1 - versine;
        const float sine = std::sqrt(versine * (2 - versine));
        const float d = std::sqrt(d2);
        s.direction = Basis(to / d).to_world(glm::vec3(sine * circle_point(u.y), cosine));
        const float along = d * cosine;
        s.distance_mm =
            along - std::sqrt(std::max(0.0f, along * along - d2 + e.half_width_mm * e.half_width_mm));
        s.cd_per_m2 = luminance_cd_per_m2(e, -s.direction, {});
        s.pdf = lamp_detail::cone_pdf(widest);
        return s;
    }
    if (e.shape == EmitterShape::sun) return lamp_detail::sample_sun(e, from_mm, u);
    glm::vec2 at(2 * u.x - 1, 2 * u.y - 1);
    if (e.shape == EmitterShape::disc) at = std::sqrt(u.x) * circle_point(u.y);
    at *= glm::vec2(e.half_width_mm, e.half_height_mm);
    const glm::vec3 to = e.centre_mm + e.u * at.x + e.v * at.y - from_mm;
    const float d2 = glm::dot(to, to);
    s.distance_mm = std::sqrt(d2);
    s.direction = to / s.distance_mm;
    const float cosine = -glm::dot(s.direction, e.axis);
    if (cosine <= 0) return s;
    s.cd_per_m2 = luminance_cd_per_m2(e, -s.direction, at);
    s.pdf = d2 / (cosine * luminous_mm2(e));
    return s;
}

/// Probability density per steradian with which `sample_li` gives a direction that meets the lamp at
/// `distance_mm`.
inline float pdf_li(const Emitter& e, const glm::vec3& from_mm, const glm::vec3& direction,
                     float distance_mm) {
    if (is_body(e)) return body_pdf(e, from_mm, direction, distance_mm);
    if (e.shape == EmitterShape::sphere) {
        const glm::vec3 to = e.centre_mm - from_mm;
        return lamp_detail::cone_pdf(lamp_detail::sphere_cone_versine(e, glm::dot(to, to)));
    }
    if (e.shape == EmitterShape::sun) return lamp_detail::kSunPdf;
    const float cosine = -glm::dot(direction, e.axis);
    return cosine > 0 ? distance_mm * distance_mm / (cosine * luminous_mm2(e)) : 0;
}

/// Whether a ray meets this lamp (number `lamp`) nearer than `nearest` so far; if so it takes its place.
inline void intersect(const Emitter& e, std::uint32_t lamp, const glm::vec3& from_mm,
                      const glm::vec3& direction, LampHit& nearest) {
    const glm::vec3 to = e.centre_mm - from_mm;
    if (is_body(e)) {
        const float t = intersect_body(e, from_mm, direction);
        if (t > 0 && t < nearest.distance_mm) nearest = {t, luminance_cd_per_m2(e, -direction, {}), lamp};
        return;
    }
    if (e.shape == EmitterShape::sphere) {
        const float along = glm::dot(to, direction);
        const glm::vec3 aside = to - along * direction;
        const float inside = e.half_width_mm * e.half_width_mm - glm::dot(aside, aside);
        if (along <= 0 || inside <= 0) return;
        const float t = along - std::sqrt(inside);
        if (t > 0 && t < nearest.distance_mm) nearest = {t, luminance_cd_per_m2(e, -direction, {}), lamp};
        return;
    }
    if (e.shape == EmitterShape::sun && !lamp_detail::within_sun(e, direction)) return;
    const float t = lamp_detail::distance_to_face_mm(e, from_mm, direction);
    if (t <= 0 || t >= nearest.distance_mm) return;
    const glm::vec3 at = direction * t - to;
    const float met = luminance_cd_per_m2(e, -direction, {glm::dot(at, e.u), glm::dot(at, e.v)});
    if (e.sky && met <= 0) return;  // sky and ground may share a window as two lights
    nearest = {t, met, lamp};
}

}  // namespace rakelight
