// One light path, from the eye back to the lamps: at every vertex one lamp is asked for directly and one
// direction is followed; the two are weighed against each other by the balance heuristic (Veach 1997). The
// path carries 16 bands of reflectance; a lamp turns them into XYZ of its group.
#pragma once

#include <array>
#include <glm/glm.hpp>
#include <span>

#include "renderer/lamp_light.h"
#include "renderer/rays.h"
#include "renderer/sampler.h"
#include "renderer/shading.h"
#include "scene/world.h"

namespace rakelight {

inline constexpr std::size_t kMostGroups = 32;
inline constexpr int kMostVertices = 96;  // of a path; Russian roulette ends nearly all long before

/// Which lamps shine and what stands in their light: what every path of a picture shares.
template <class RayCaster>
struct Stage {
    const World& world;
    const RayCaster& rays;
    std::span<const Emitter> lamps;
};

/// What one path brought home.
struct PathLight {
    std::array<glm::vec3, kMostGroups> xyz;  ///< cd/m2 for each lamp group; only the world's groups are used
    float first_surface_cd_per_m2 = 0;       ///< part of the luminance mirrored by the first face
    float luminance_cd_per_m2 = 0;
};

/// What the eye ray met.
struct FirstSight {
    float distance_mm = 0;
    glm::vec3 normal{};
    std::int32_t piece = 0;
    std::int32_t material = 0;
};

namespace path_detail {

// Adds light of `cd_per_m2` that reaches the eye through `reflectance`. `mirrored`: share of it by the first
// face.
inline void gather(PathLight& light, const LampWeights& weights, std::uint32_t group, float cd_per_m2,
                   const Bands& reflectance, float mirrored) {
    const std::array<float, 3> c = apply(weights, reflectance);
    light.xyz[group] += glm::vec3(c[0], c[1], c[2]) * cd_per_m2;
    light.luminance_cd_per_m2 += c[1] * cd_per_m2;
    light.first_surface_cd_per_m2 += mirrored * c[1] * cd_per_m2;
}

inline float share_of_face(const Lobes& lobes) {
    const float body = mean(lobes.body);
    return lobes.face > 0 ? lobes.face / (lobes.face + body) : 0.0f;
}

}  // namespace path_detail

/// Follows one path. `from_mm`, `direction` (unit): the eye ray. `light.xyz` of the world's groups must be
/// zero.
template <class RayCaster>
void trace_path(const Stage<RayCaster>& stage, glm::vec3 from_mm, glm::vec3 direction, Sampler sampler,
                PathLight& light, FirstSight& sight) {
    using namespace path_detail;
    const World& world = stage.world;
    Bands throughput(1.0f);
    float mirrored = 0;    // share of what comes that was mirrored by the first face
    bool eye_sees = true;  // eye ray, or mirrored without blur since
    float bounce_pdf = 0;  // of the direction now followed; 0 = no lamp could have been aimed at instead
    std::array<float, kMostLamps> lamp_share;  // of the vertex before; only the stage's lamps are used
    constexpr float kFar_mm = 1e8f;

    for (int vertex = 0; vertex < kMostVertices; ++vertex) {
        const Hit hit = stage.rays.nearest(from_mm, direction, kFar_mm);
        const float reach = hit.triangle == kNone ? kFar_mm : hit.distance_mm;

        if (const LampHit lamp = meet_lamp(stage.lamps, from_mm, direction, reach); lamp.lamp != kMostLamps) {
            const Emitter& e = stage.lamps[lamp.lamp];
            float weight = 1;
            if (bounce_pdf > 0) {
                const float aimed = lamp_share[lamp.lamp] * aim_pdf(e, from_mm, direction, lamp.distance_mm);
                weight = bounce_pdf / (bounce_pdf + aimed);
            }
            gather(light, e.weights, e.group, lamp.cd_per_m2 * weight, throughput, mirrored);
            return;  // a lamp's face is taken as black
        }
        if (hit.triangle == kNone) {
            if (world.surround)
                gather(light, world.surround->weights, world.surround->group, world.surround->cd_per_m2,
                       throughput, mirrored);
            return;
        }

        const ShadingPoint point = shade(world, hit, from_mm, direction, eye_sees);
        const Basis basis(point.normal);
        const glm::vec3 out = basis.to_local(-direction);
        const float chance = face_chance(*point.surface, out, eye_sees);
        if (vertex == 0) sight = {hit.distance_mm, point.normal, point.thing->piece, point.thing->material};
        from_mm = point.at_mm + point.geometric * step_off_mm(point.at_mm);

        const LampChoice choice(stage.lamps, point.at_mm, point.normal);
        glm::vec2 u = sampler.next();
        const glm::vec2 which = sampler.next();
        if (choice.any) {
            float pick = which.x;
            const std::uint32_t lamp = choice.pick(pick, stage.lamps.size());
            const Emitter& e = stage.lamps[lamp];
            const LampSample aim = aim_at(e, from_mm, u);
            const glm::vec3 in = basis.to_local(aim.direction);
            if (aim.pdf > 0 && aim.cd_per_m2 > 0 && in.z > 0 &&
                glm::dot(aim.direction, point.geometric) > 0) {
                float followed = 0;
                const Lobes lobes = evaluate(*point.surface, out, in, point.body_scale, chance, followed);
                const float weight = 1 / (choice.share[lamp] * aim.pdf + followed);
                if (lobes.face > 0 || max_value(lobes.body) > 0) {
                    if (!stage.rays.blocked(from_mm, aim.direction, aim.distance_mm * 0.9999f))
                        gather(light, e.weights, e.group, aim.cd_per_m2 * weight,
                               throughput * (lobes.body + lobes.face),
                               vertex == 0 ? share_of_face(lobes) : mirrored);
                }
            }
        }

        Bounce bounce;
        u = sampler.next();
        if (!sample(*point.surface, out, chance, {u.x, u.y, which.y}, point.body_scale, bounce)) return;
        direction = basis.to_world(bounce.in);
        if (glm::dot(direction, point.geometric) <= 0) return;
        throughput *= (bounce.lobes.body + bounce.lobes.face) * (1 / bounce.pdf);
        if (vertex == 0) mirrored = share_of_face(bounce.lobes);
        eye_sees = eye_sees && bounce.mirror;
        bounce_pdf = bounce.mirror ? 0 : bounce.pdf;
        for (std::size_t i = 0; i < stage.lamps.size(); ++i) lamp_share[i] = choice.any ? choice.share[i] : 0;

        if (vertex >= 2) {  // Russian roulette by what is left of the light
            const float keep = std::min(0.95f, max_value(throughput));
            if (sampler.next().x >= keep) return;
            throughput *= 1 / keep;
        }
    }
}

}  // namespace rakelight
