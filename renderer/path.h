// Wavefront path tracing, from the eye back to the lamps: at every vertex lamps are sampled directly, two at
// the first and one afterwards, and one scattered direction is followed; these are weighed against each other
// by multiple importance sampling, the balance heuristic (Veach 1997). A path carries 16 bands of
// reflectance; a lamp turns them into XYZ of its group. Paths go in wavefronts, a vertex at a time, so that
// rays which start and end together are traced together and memory is fetched before it is needed; vertices
// are shaded by eights. What a path finds does not depend on its wavefront.
#pragma once

#include <array>
#include <glm/glm.hpp>
#include <span>

#include "renderer/bvh.h"
#include "renderer/light_distribution.h"
#include "renderer/payload.h"
#include "renderer/vertices.h"
#include "scene/world/world.h"

namespace rakelight {

inline constexpr std::size_t kMostPaths = 128;  // in one wavefront
inline constexpr int kMostVertices = 96;        // of a path; Russian roulette ends nearly all long before

/// The scene as paths see it, shared by every path of a picture: what stands there and which lamps shine.
template <class RayCaster>
struct SceneView {
    const World& world;
    const RayCaster& bvh;
    const LightSampler& lights;
};

namespace path_detail {

/// Fetches what the shading of these hits will read, one link of the chain at a time. `first`: hits of eye
/// rays; those of later vertices mostly read the roughened surface.
inline void fetch_ahead(const World& world, std::span<const Hit> hits, bool first) {
    for (const Hit& hit : hits)
        if (hit.triangle != kNone) __builtin_prefetch(&world.packed_normals[hit.triangle]);
    for (const Hit& hit : hits)
        if (hit.triangle != kNone)
            __builtin_prefetch(&world.objects[world.packed_normals[hit.triangle].object]);
    for (const Hit& hit : hits) {
        if (hit.triangle == kNone) continue;
        const Object& object = world.objects[world.packed_normals[hit.triangle].object];
        if (first && object.edges != kNone)
            __builtin_prefetch(&world.edges[object.edges + (hit.triangle - object.first_triangle)]);
        const auto* surface =
            reinterpret_cast<const char*>(&world.surfaces[first ? object.surface : object.roughened_surface]);
        for (std::size_t line = 0; line < 6; ++line) __builtin_prefetch(surface + 64 * line);
    }
}

/// Adds the lamp or surround that a path runs into on its way to this vertex; true when the path ends there.
template <class RayCaster, class Payload>
bool ends_in_light(const SceneView<RayCaster>& scene, Payload& payload, Path& path, std::uint32_t number,
                   int vertex, const Ray& ray, const Hit& hit) {
    typename Payload::Contribution light;
    const float reach = hit.triangle == kNone ? kFar_mm : hit.distance_mm;
    if (const LampHit lamp = scene.lights.intersect(ray.from_mm, ray.direction, reach);
        lamp.lamp != kNoLamp) {
        const Emitter& e = scene.lights.lamps()[lamp.lamp];
        float weight = 1;
        if (path.bounce_pdf > 0) {
            const Vec3s from_mm = broadcast3(ray.from_mm), normal = broadcast3(path.last_normal);
            const LightDistribution asked(scene.lights, from_mm, normal, light_samples(vertex - 1));
            const float aimed =
                asked.expected(lamp.lamp)[0] * pdf_li(e, ray.from_mm, ray.direction, lamp.distance_mm);
            weight = path.bounce_pdf / (path.bounce_pdf + aimed);
        }
        TristimulusWeights own;
        payload.hit_light(path, number, weights_from(e, ray.direction, own), lamp.cd_per_m2 * weight, light);
        payload.splat(path, number, light, e.group, vertex > 1);
        return true;  // a lamp's face is taken as black
    }
    if (hit.triangle != kNone) return false;
    if (const auto& environment = scene.world.environment) {
        payload.hit_light(path, number, environment->weights, environment->cd_per_m2, light);
        payload.splat(path, number, light, environment->group, vertex > 1);
    }
    return true;
}

/// Sorts out the paths that end in a lamp or in nothing; the rest, as places in `alive`, fill `meeting`.
template <class RayCaster, class Payload>
std::size_t end_in_light(const SceneView<RayCaster>& scene, Payload& payload, std::span<Path> paths,
                         std::span<const std::uint32_t> alive, int vertex, std::span<const Ray> rays,
                         std::span<const Hit> hits, std::span<std::uint32_t> meeting) {
    std::size_t count = 0;
    for (std::size_t first = 0; first < alive.size(); first += kLanes) {
        const std::size_t live = std::min(kLanes, alive.size() - first);
        const auto number = [&](std::size_t k) { return alive[first + std::min(k, live - 1)]; };
        const auto [from_mm, direction] =
            from_and_direction([&](std::size_t k) { return &rays[first + std::min(k, live - 1)]; });
        const Ints near = scene.lights.may_hit(from_mm, direction);
        for (std::size_t k = 0; k < live; ++k) {
            const Hit& hit = hits[first + k];
            if ((near[k] || hit.triangle == kNone) &&
                ends_in_light(scene, payload, paths[number(k)], number(k), vertex, rays[first + k], hit))
                continue;
            meeting[count++] = static_cast<std::uint32_t>(first + k);
        }
    }
    return count;
}

}  // namespace path_detail

/// Follows paths to their ends. At most kMostPaths. What they carry, and where it is added, is the payload's.
template <class RayCaster, class Payload>
void trace_wavefront(const SceneView<RayCaster>& scene, std::span<Path> paths, Payload& payload) {
    using namespace path_detail;
    std::array<std::uint32_t, kMostPaths> alive;
    std::array<Ray, kMostPaths> rays;  // of the paths that are alive
    constexpr std::size_t kMostPending = kMostLightSamples * kMostPaths;
    std::array<Ray, kMostPending> shadow_rays;
    std::array<Hit, kMostPaths> hits;
    std::array<std::uint32_t, kMostPaths> meeting;
    std::array<PendingLight<typename Payload::Contribution>, kMostPending> pending;
    std::array<bool, kMostPending> occluded;
    std::size_t count = paths.size();
    for (std::size_t i = 0; i < count; ++i) {
        alive[i] = static_cast<std::uint32_t>(i);
        rays[i] = {paths[i].from_mm, kFar_mm, paths[i].direction};
    }

    for (int vertex = 0; vertex < kMostVertices && count > 0; ++vertex) {
        scene.bvh.intersect({rays.data(), count}, {hits.data(), count}, vertex == 0);
        fetch_ahead(scene.world, {hits.data(), count}, vertex == 0);

        const std::size_t met = end_in_light(scene, payload, paths, {alive.data(), count}, vertex,
                                             {rays.data(), count}, {hits.data(), count}, meeting);
        const bool evenly = vertex < kEvenVertices;
        std::size_t going = 0;
        std::size_t pending_count = 0;
        for (std::size_t first = 0; first < met; first += kLanes) {
            Lanes lanes;
            lanes.live = std::min(kLanes, met - first);
            for (std::size_t k = 0; k < kLanes; ++k) {
                const std::uint32_t place = meeting[first + std::min(k, lanes.live - 1)];
                lanes.index[k] = alive[place];
                lanes.paths[k] = &paths[alive[place]];
                lanes.rays[k] = &rays[place];
                lanes.hits[k] = &hits[place];
            }
            const Interaction at = interaction_at(scene.world, lanes, vertex);
            if (vertex == 0)
                for (std::size_t k = 0; k < lanes.live; ++k) {
                    const Object& object = *at.point.objects[k];
                    payload.first_hit(lanes.index[k], object);
                    lanes.paths[k]->sight = {
                        lanes.hits[k]->distance_mm, lane(at.point.normal, k), object.piece, object.material,
                        at.point.surfaces[k],       at.point.base_scale[k]};
                }

            const SamplePoint<Words> numbers = sample_points(lanes);
            const std::uint32_t ahead = kPairsAVertex * static_cast<std::uint32_t>(vertex) + 1;
            const PairOf<Floats> which = numbers.pair_at(ahead, evenly);
            if (scene.lights.size() > 0)
                sample_lights(scene.lights, lanes, at, which.x, numbers.pair_at(ahead + 1, evenly), vertex,
                              payload, shadow_rays, pending, pending_count);
            // Those that go on are put where all has been read already: no more than were met before.
            scatter(lanes, at, which.y, numbers.pair_at(ahead + 2, evenly), numbers.random_pair(ahead + 3).x,
                    vertex, payload, rays, alive, going);
        }

        scene.bvh.occluded({shadow_rays.data(), pending_count}, {occluded.data(), pending_count});
        for (std::size_t i = 0; i < pending_count; ++i)
            if (!occluded[i])
                payload.splat(paths[pending[i].path], pending[i].path, pending[i].light, pending[i].group,
                              vertex > 0);
        count = going;
    }
}

/// The same for one picture. `sums` are added to. `patience`: as of PathPayload.
template <class RayCaster>
void trace_paths(const SceneView<RayCaster>& scene, std::span<Path> paths, const PathSums& sums,
                 float patience = 1) {
    PathPayload payload{sums, scene.world.groups.size(), patience};
    trace_wavefront(scene, paths, payload);
}

/// The same for XYZ alone.
template <class RayCaster>
void trace_paths(const SceneView<RayCaster>& scene, std::span<Path> paths, std::span<glm::dvec3> xyz) {
    trace_paths(scene, paths, PathSums{xyz, {}, {}});
}

}  // namespace rakelight
