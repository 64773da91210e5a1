// From a hit to what the light path needs to know there: a frame, a surface and how its grain stands.
#pragma once

#include <glm/glm.hpp>

#include "materials/noise.h"
#include "materials/surface.h"
#include "renderer/rays.h"
#include "scene/world.h"

namespace rakelight {

struct ShadingPoint {
    glm::vec3 at_mm{};
    glm::vec3 geometric{};  ///< unit, on the side the ray came from
    glm::vec3 normal{};     ///< unit, shading, seen from the front by the ray
    const Thing* thing = nullptr;
    const Surface* surface = nullptr;
    float body_scale = 1;  ///< grain: factor on the body's reflectance
};

/// Distance to step off a surface so that a new ray does not meet it again: a thousandth of a millimetre near
/// the panel, more where coordinates are large and rounding coarser.
inline float step_off_mm(const glm::vec3& at_mm) {
    const float size = std::max({std::abs(at_mm.x), std::abs(at_mm.y), std::abs(at_mm.z)});
    return 1e-3f + 1e-6f * size;
}

/// Noise of a thing's grain at a place: factor on its body, mean 1.
inline float grain_scale(const Thing& thing, const glm::vec3& at_mm) {
    if (thing.grain.contrast <= 0) return 1;
    glm::vec3 p = at_mm + thing.noise_shift_mm;
    if (thing.grain.band_ratio > 1)
        p -= thing.along * (glm::dot(p, thing.along) * (1 - 1 / thing.grain.band_ratio));
    p /= thing.grain.size_mm;
    // Two octaves whose weights make a standard deviation of one.
    const float n =
        (0.8f * noise_value(p, thing.seed) + 0.6f * noise_value(p * 2.7f, thing.seed + 1)) / kNoiseDeviation;
    return std::clamp(1 + thing.grain.contrast * n, 0.2f, 1.8f);
}

/// `fine`: as an eye sees it, with grain, patches and sharp faces; otherwise as light meets it that a dull
/// surface has scattered before.
inline ShadingPoint shade(const World& world, const Hit& hit, const glm::vec3& from_mm,
                          const glm::vec3& direction, bool fine) {
    ShadingPoint s;
    const TriangleShade& triangle = world.shades[hit.triangle];
    s.thing = &world.things[triangle.thing];
    s.at_mm = from_mm + direction * hit.distance_mm;
    s.geometric = glm::normalize(hit.geometric_normal);
    const glm::vec3 n = unpack_normal(triangle.normals[0]) * (1 - hit.u - hit.v) +
                        unpack_normal(triangle.normals[1]) * hit.u +
                        unpack_normal(triangle.normals[2]) * hit.v;
    s.normal = glm::normalize(n);
    if (glm::dot(s.geometric, direction) > 0) s.geometric = -s.geometric;
    if (glm::dot(s.normal, s.geometric) < 0) s.normal = -s.normal;
    // A shading normal that faces away at a silhouette is bent back until the ray just sees its front.
    constexpr float kLeastCosine = 1e-2f;
    const float facing = -glm::dot(s.normal, direction);
    if (facing < kLeastCosine) s.normal = glm::normalize(s.normal - direction * (kLeastCosine - facing));

    std::uint32_t surface = fine ? s.thing->surface : s.thing->blunt_surface;
    if (fine && s.thing->glassy_surface != kNone) {
        const glm::vec3 p = (s.at_mm + s.thing->noise_shift_mm) / s.thing->glassy_patch_mm;
        const float patch = noise_value(p, s.thing->seed) + 0.6f * noise_value(p * 2.3f, s.thing->seed + 1) +
                            0.45f * noise_value(p * 6.1f, s.thing->seed + 2);
        if (patch > s.thing->glassy_threshold) surface = s.thing->glassy_surface;
    }
    s.surface = &world.surfaces[surface];
    if (fine) s.body_scale = std::min(grain_scale(*s.thing, s.at_mm), s.surface->max_body_scale);
    return s;
}

}  // namespace rakelight
