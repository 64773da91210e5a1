// Sampling one light from a point: sample_li, its density pdf_li, and which light a ray runs into.
#pragma once

#include <glm/glm.hpp>

#include "scene/light/emitter.h"

namespace rakelight {

/// A direction towards a lamp and its luminance there. `pdf` per steradian for this lamp alone; 0 when
/// nothing comes from there.
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

/// A direction towards the lamp, by its shape: a uniformly distributed point of a flat one, of a sphere and
/// the sun a direction of their cone, of a body a point of what is seen of it.
inline LiSample sample_li(const Emitter& e, const glm::vec3& from_mm, const glm::vec2& u) {
    const ShapeSample s = sample(e.shape, e, from_mm, u);
    if (s.pdf <= 0) return {s.direction, s.distance_mm};
    return {s.direction, s.distance_mm, luminance_cd_per_m2(e, -s.direction, s.at_mm), s.pdf};
}

/// Probability density per steradian with which `sample_li` gives a direction that meets the lamp at
/// `distance_mm`.
inline float pdf_li(const Emitter& e, const glm::vec3& from_mm, const glm::vec3& direction,
                    float distance_mm) {
    return pdf(e.shape, e, from_mm, direction, distance_mm);
}

/// Whether a ray meets this lamp (number `lamp`) nearer than `nearest` so far; if so it takes its place.
inline void intersect(const Emitter& e, std::uint32_t lamp, const glm::vec3& from_mm,
                      const glm::vec3& direction, LampHit& nearest) {
    const ShapeHit hit = intersect(e.shape, e, from_mm, direction);
    if (hit.distance_mm <= 0 || hit.distance_mm >= nearest.distance_mm) return;
    const float met = luminance_cd_per_m2(e, -direction, hit.at_mm);
    if (e.sky && met <= 0) return;  // sky and ground may share a window as two lights
    nearest = {hit.distance_mm, met, lamp};
}

}  // namespace rakelight
