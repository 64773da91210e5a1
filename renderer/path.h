// Light paths, from the eye back to the lamps: at every vertex one lamp is asked for directly and one
// direction is followed; the two are weighed against each other by the balance heuristic (Veach 1997). A path
// carries 16 bands of reflectance; a lamp turns them into XYZ of its group. Paths go in company, a vertex at
// a time, so that rays which start and end together are asked about together and memory is fetched before it
// is needed. What a path brings home does not depend on its company.
#pragma once

#include <array>
#include <glm/glm.hpp>
#include <span>

#include "renderer/lamp_field.h"
#include "renderer/rays.h"
#include "renderer/sampler.h"
#include "renderer/shading.h"
#include "scene/world.h"

namespace rakelight {

inline constexpr std::size_t kMostPaths = 128;  // in one company
inline constexpr float kGlossy = 0.1f;          // GGX roughness below which a face shows an image
inline constexpr int kEvenVertices =
    2;  // whose random numbers are spread evenly; later ones gain nothing by it
inline constexpr int kMostVertices = 96;  // of a path; Russian roulette ends nearly all long before

/// Which lamps shine and what stands in their light: what every path of a picture shares.
template <class RayCaster>
struct Stage {
    const World& world;
    const RayCaster& rays;
    const LampField& lamps;
};

/// What the eye ray met.
struct FirstSight {
    float distance_mm = 0;
    glm::vec3 normal{};
    std::int32_t piece = 0;
    std::int32_t material = 0;
};

/// A path under way, and what it has brought home.
struct Path {
    glm::vec3 from_mm{};
    glm::vec3 direction{};  ///< unit
    Sampler sampler{0, 0};
    std::uint32_t slot = 0;  ///< where its XYZ is added: sums[slot * groups + group]

    float luminance_cd_per_m2 = 0;
    float first_surface_cd_per_m2 = 0;  ///< part of it mirrored by the first face
    FirstSight sight;

    Bands throughput{1.0f};
    float mirrored = 0;       ///< share of what still comes that the first face mirrored
    float bounce_pdf = 0;     ///< of `direction`; 0 = no lamp could have been aimed at instead
    bool eye_sees = true;     ///< eye ray, or mirrored by glossy faces only since
    glm::vec3 last_normal{};  ///< where `direction` was chosen
};

namespace path_detail {

/// A lamp asked for directly, its light ready to be added if nothing stands between.
struct Asked {
    glm::vec3 xyz{};
    float first_surface_cd_per_m2 = 0;
    std::uint32_t path = 0;
    std::uint32_t group = 0;
};

inline glm::vec3 xyz_of(const LampWeights& weights, const Bands& reflectance, float cd_per_m2) {
    const std::array<float, 3> c = apply(weights, reflectance);
    return glm::vec3(c[0], c[1], c[2]) * cd_per_m2;
}

inline void bring_home(Path& path, const glm::vec3& xyz, float first_surface_cd_per_m2, std::uint32_t group,
                       std::size_t groups, std::span<glm::dvec3> sums) {
    sums[path.slot * groups + group] += glm::dvec3(xyz);
    path.luminance_cd_per_m2 += xyz.y;
    path.first_surface_cd_per_m2 += first_surface_cd_per_m2;
}

inline float share_of_face(const Lobes& lobes) {
    return lobes.face > 0 ? lobes.face / (lobes.face + mean(lobes.body)) : 0.0f;
}

/// Fetches what the shading of these hits will read, one link of the chain at a time.
inline void fetch_ahead(const World& world, std::span<const Hit> hits) {
    for (const Hit& hit : hits)
        if (hit.triangle != kNone) __builtin_prefetch(&world.shades[hit.triangle]);
    for (const Hit& hit : hits)
        if (hit.triangle != kNone) __builtin_prefetch(&world.things[world.shades[hit.triangle].thing]);
    for (const Hit& hit : hits) {
        if (hit.triangle == kNone) continue;
        const auto* surface = reinterpret_cast<const char*>(
            &world.surfaces[world.things[world.shades[hit.triangle].thing].surface]);
        for (std::size_t line = 0; line < 6; ++line) __builtin_prefetch(surface + 64 * line);
    }
}

/// Adds the lamp or surround that a path runs into; true when the path ends there.
template <class RayCaster>
bool ends_in_light(const Stage<RayCaster>& stage, Path& path, const Hit& hit, std::span<glm::dvec3> sums) {
    const World& world = stage.world;
    const std::size_t groups = world.groups.size();
    const float reach = hit.triangle == kNone ? kFar_mm : hit.distance_mm;
    if (const LampHit lamp = stage.lamps.meet(path.from_mm, path.direction, reach); lamp.lamp != kMostLamps) {
        const Emitter& e = stage.lamps.lamps()[lamp.lamp];
        float weight = 1;
        if (path.bounce_pdf > 0) {
            const LampChoice choice(stage.lamps, path.from_mm, path.last_normal);
            const float aimed =
                choice.share(lamp.lamp) * aim_pdf(e, path.from_mm, path.direction, lamp.distance_mm);
            weight = path.bounce_pdf / (path.bounce_pdf + aimed);
        }
        const glm::vec3 xyz = xyz_of(e.weights, path.throughput, lamp.cd_per_m2 * weight);
        bring_home(path, xyz, xyz.y * path.mirrored, e.group, groups, sums);
        return true;  // a lamp's face is taken as black
    }
    if (hit.triangle != kNone) return false;
    if (world.surround) {
        const glm::vec3 xyz = xyz_of(world.surround->weights, path.throughput, world.surround->cd_per_m2);
        bring_home(path, xyz, xyz.y * path.mirrored, world.surround->group, groups, sums);
    }
    return true;
}

/// Asks one lamp for its light at a vertex; false when none can come.
template <class RayCaster>
bool ask_lamp(const Stage<RayCaster>& stage, Path& path, const ShadingPoint& point, const Basis& basis,
              const glm::vec3& out, float chance, int vertex, float pick, RayQuestion& question,
              Asked& asked) {
    const bool evenly = vertex < kEvenVertices;
    const LampChoice choice(stage.lamps, path.from_mm, point.normal);
    if (!(choice.total > 0)) return false;
    const std::uint32_t lamp = choice.pick(pick, stage.lamps.lamps().size());
    const Emitter& e = stage.lamps.lamps()[lamp];
    const LampSample aim = aim_at(e, path.from_mm, path.sampler.next(evenly));
    const glm::vec3 in = basis.to_local(aim.direction);
    if (!(aim.pdf > 0 && aim.cd_per_m2 > 0 && in.z > 0 && glm::dot(aim.direction, point.geometric) > 0))
        return false;
    float followed = 0;
    const Lobes lobes = evaluate(*point.surface, out, in, point.body_scale, chance, followed);
    const float weight = 1 / (choice.share(lamp) * aim.pdf + followed);
    asked.xyz = xyz_of(e.weights, path.throughput * (lobes.body + lobes.face), aim.cd_per_m2 * weight);
    asked.first_surface_cd_per_m2 = asked.xyz.y * (vertex == 0 ? share_of_face(lobes) : path.mirrored);
    asked.group = e.group;
    question = {path.from_mm, aim.distance_mm * 0.9999f, aim.direction};
    return true;
}

/// Chooses where the path goes on; false when it ends.
inline bool go_on(Path& path, const ShadingPoint& point, const Basis& basis, const glm::vec3& out,
                  float chance, int vertex, float lobe) {
    Bounce bounce;
    const glm::vec2 u = path.sampler.next(vertex < kEvenVertices);
    if (!sample(*point.surface, out, chance, {lobe, u.x, u.y}, point.body_scale, bounce)) return false;
    path.direction = basis.to_world(bounce.in);
    if (glm::dot(path.direction, point.geometric) <= 0) return false;
    path.throughput *= (bounce.lobes.body + bounce.lobes.face) * (1 / bounce.pdf);
    if (vertex == 0) path.mirrored = share_of_face(bounce.lobes);
    path.eye_sees = path.eye_sees && bounce.from_face && point.surface->face->alpha < kGlossy;
    path.bounce_pdf = bounce.mirror ? 0 : bounce.pdf;
    path.last_normal = point.normal;
    if (vertex >= 2) {  // Russian roulette by what is left of the light
        const float keep = std::min(0.95f, max_value(path.throughput));
        if (path.sampler.next_random().x >= keep) return false;
        path.throughput *= 1 / keep;
    }
    return true;
}

}  // namespace path_detail

/// Follows paths to their ends. At most kMostPaths. `sums`: XYZ in cd/m2, [slot * groups + group], added to.
template <class RayCaster>
void trace_paths(const Stage<RayCaster>& stage, std::span<Path> paths, std::span<glm::dvec3> sums) {
    using namespace path_detail;
    std::array<std::uint32_t, kMostPaths> alive;
    std::array<RayQuestion, kMostPaths> questions;
    std::array<Hit, kMostPaths> hits;
    std::array<Asked, kMostPaths> asked;
    std::array<bool, kMostPaths> blocked;
    std::size_t count = paths.size();
    for (std::size_t i = 0; i < count; ++i) alive[i] = static_cast<std::uint32_t>(i);

    for (int vertex = 0; vertex < kMostVertices && count > 0; ++vertex) {
        for (std::size_t i = 0; i < count; ++i) {
            const Path& path = paths[alive[i]];
            questions[i] = {path.from_mm, kFar_mm, path.direction};
        }
        stage.rays.nearest({questions.data(), count}, {hits.data(), count}, vertex == 0);
        fetch_ahead(stage.world, {hits.data(), count});

        std::size_t going = 0;
        std::size_t asking = 0;
        for (std::size_t i = 0; i < count; ++i) {
            const std::uint32_t index = alive[i];
            Path& path = paths[index];
            if (ends_in_light(stage, path, hits[i], sums)) continue;
            const ShadingPoint point =
                shade(stage.world, hits[i], path.from_mm, path.direction, path.eye_sees);
            const Basis basis(point.normal);
            const glm::vec3 out = basis.to_local(-path.direction);
            const float chance = face_chance(*point.surface, out, path.eye_sees);
            if (vertex == 0)
                path.sight = {hits[i].distance_mm, point.normal, point.thing->piece, point.thing->material};
            path.from_mm = point.at_mm + point.geometric * step_off_mm(point.at_mm);

            const glm::vec2 which = path.sampler.next(vertex < kEvenVertices);
            if (ask_lamp(stage, path, point, basis, out, chance, vertex, which.x, questions[asking],
                         asked[asking]))
                asked[asking++].path = index;
            if (go_on(path, point, basis, out, chance, vertex, which.y)) alive[going++] = index;
        }

        stage.rays.blocked({questions.data(), asking}, {blocked.data(), asking});
        for (std::size_t i = 0; i < asking; ++i)
            if (!blocked[i])
                bring_home(paths[asked[i].path], asked[i].xyz, asked[i].first_surface_cd_per_m2,
                           asked[i].group, stage.world.groups.size(), sums);
        count = going;
    }
}

}  // namespace rakelight
