// Path vertices, eight at a time: the interaction with a surface, direct light from one sampled lamp, and the
// scattered direction. What paths carry meanwhile is told by a payload, see payload.h.
#pragma once

#include <array>
#include <bit>
#include <glm/glm.hpp>
#include <span>

#include "materials/maths/transposed.h"
#include "materials/optics/surface_lanes.h"
#include "renderer/bvh.h"
#include "renderer/footprint.h"
#include "renderer/light_distribution.h"
#include "renderer/sampler.h"
#include "renderer/shading.h"
#include "scene/world/world.h"

namespace rakelight {

inline constexpr float kGlossy = 0.1f;  // GGX roughness below which an interface shows an image
inline constexpr int kMostLightSamples = 2;
inline constexpr int kEvenVertices =
    2;  // whose random numbers are spread evenly; later ones gain nothing by it
inline constexpr std::uint32_t kPairsAVertex =
    4;  // of random numbers: which lamp and lobe, lamp, direction, end

/// Light samples at a vertex: two where the eye looks, since which lamp is asked there is most of the grain,
/// and one afterwards.
inline constexpr int light_samples(int vertex) {
    return vertex == 0 ? kMostLightSamples : 1;
}

/// What the eye ray met.
struct FirstSight {
    float distance_mm = 0;
    glm::vec3 normal{};
    std::int32_t piece = 0;
    std::int32_t material = 0;
    const Surface* surface = nullptr;  ///< there
    float base_scale = 1;              ///< its grain
};

/// A light path under way, and the light that it has found.
struct Path {
    glm::vec3 from_mm{};    ///< where it starts
    glm::vec3 direction{};  ///< and which way, unit
    Sampler sampler{0, 0};
    std::uint32_t slot = 0;  ///< where its XYZ is added: sums[slot * groups + group]

    float luminance_cd_per_m2 = 0;
    float first_surface_cd_per_m2 = 0;  ///< part of it mirrored by the first interface
    glm::vec3 indirect_xyz{};           ///< XYZ of the rest of it that came by other surfaces, cd/m2
    FirstSight sight;

    SampledSpectrum throughput{1.0f};
    float mirrored = 0;       ///< share of what still comes that the first interface mirrored
    float footprint = 0;      ///< of its pixel's first eye ray at a distance of 1, standard deviation
    float shrinking = 0;      ///< how much smaller its own is; 0 = it has none
    float bounce_pdf = 0;     ///< of the way it goes; 0 = no lamp could have been aimed at instead
    bool eye_sees = true;     ///< eye ray, or mirrored by glossy faces only since
    glm::vec3 last_normal{};  ///< where that was chosen
};

namespace path_detail {

/// Eight paths that have met something; lanes past the live ones repeat the last.
struct Lanes {
    LaneArray<std::uint32_t> index;
    LaneArray<Path*> paths;
    LaneArray<const Ray*> rays;
    LaneArray<const Hit*> hits;
    std::size_t live = 0;
};

/// The interaction of eight paths with the surfaces they have met.
struct Interaction {
    ShadingLanes point;
    Bases basis;
    SurfaceLanes surface;
    Vec3s from_mm;  ///< a step off the surface
};

/// All bits set in the lanes whose surface is anisotropic.
inline Ints anisotropic_lanes(const ShadingLanes& point) {
    Ints r{};
    for (std::size_t k = 0; k < kLanes; ++k) r[k] = point.surfaces[k]->anisotropic ? -1 : 0;
    return r;
}

/// How much rougher the interfaces are that the eye sees, itself or mirrored in others: see footprint.h.
inline Widening widening_of(const World& world, const Lanes& lanes, const Vec3s& direction,
                            const ShadingLanes& point, int vertex, Bases& basis) {
    const Ints own = anisotropic_lanes(point);
    const Floats smaller =
        gather([&](std::size_t k) { return lanes.paths[k]->eye_sees ? lanes.paths[k]->shrinking : 0.0f; });
    if (!any(smaller > 0)) return {};
    if (vertex == 0) {
        const Floats width_mm =
            gather([&](std::size_t k) { return lanes.hits[k]->distance_mm * lanes.paths[k]->footprint; });
        return widening(world, lanes.hits, direction, width_mm, smaller, own, basis);
    }
    const Floats all_round = own ? Floats{} : kFirstMirrorWidening * smaller;
    return {all_round, all_round};
}

/// Where eight rays start, and their directions. `ray(lane)`: a `const Ray*`.
template <class F>
std::array<Vec3s, 2> from_and_direction(F&& ray) {
    const LaneArray<Floats> c = columns_of_8([&](std::size_t k) { return &ray(k)->from_mm.x; });
    return {Vec3s{c[0], c[1], c[2]}, Vec3s{c[4], c[5], c[6]}};
}

/// The interaction of eight paths that have each met a surface, at this vertex of theirs.
inline Interaction interaction_at(const World& world, const Lanes& lanes, int vertex) {
    const auto [from_mm, direction] = from_and_direction([&](std::size_t k) { return lanes.rays[k]; });
    const Floats seen = gather([&](std::size_t k) { return lanes.paths[k]->eye_sees ? 1.0f : 0.0f; });
    const ShadingLanes point = shading_at(world, lanes.hits, from_mm, direction, seen);
    Bases basis(point.normal);
    if (const Ints anisotropic = anisotropic_lanes(point); any(anisotropic))
        basis.turn(anisotropic,
                   gather3([&](std::size_t k) -> const glm::vec3& { return point.objects[k]->along; }));
    const Widening wide = widening_of(world, lanes, direction, point, vertex, basis);
    Vec3s out = basis.to_local(-direction);
    out.z = max(out.z, broadcast(1e-4f));
    return {point, basis,
            SurfaceLanes(point.surfaces, out, point.base_scale, seen, point.edge_mm,
                         basis.to_local(broadcast3(world.panel_normal)), wide),
            point.at_mm + point.geometric * step_off_mm(point.at_mm)};
}

/// Where the samplers of eight paths stand.
inline SamplePoint<Words> sample_points(const Lanes& lanes) {
    const auto of = [&](auto member) {
        return gather_words([&](std::size_t k) { return lanes.paths[k]->sampler.point().*member; });
    };
    using Point = SamplePoint<std::uint32_t>;
    return {of(&Point::seed), of(&Point::reversed), of(&Point::pair)};
}

/// One of eight vectors; `k` below kLanes.
inline glm::vec3 lane(const Vec3s& v, std::size_t k) {
    return {v.x[k], v.y[k], v.z[k]};
}

/// The BSDF value of one of eight surfaces towards a direction: by its interface alike in all bands, the rest
/// by its base.
struct BsdfValue {
    const Interaction& at;
    std::size_t lane;
    const BaseLanes& towards;
    float base_weight;
    float interface;

    SampledSpectrum base() const { return at.surface.base(lane, towards) * base_weight; }
    /// The same were another surface there, see SurfaceLanes::base_of, its base times `scale`.
    SampledSpectrum base_of(const Surface& other, float scale) const {
        return at.surface.base_of(other, lane, towards) * scale * base_weight;
    }
};

/// Direct light of a sampled lamp, to be splatted if nothing occludes it.
template <class Contribution>
struct PendingLight {
    Contribution light;
    std::uint32_t path = 0;
    std::uint32_t group = 0;
};

/// The n-th of several points spread over the unit square, from the first: turned by a half each way.
inline PairOf<Floats> turned(const PairOf<Floats>& u, int n) {
    const auto wrapped = [](const Floats& x) { return x >= 1 ? x - 1 : x; };
    const float by = 0.5f * static_cast<float>(n);
    return {wrapped(u.x + by), wrapped(u.y + by)};
}

/// Adds the shadow rays of these samples that are worth tracing, weighed against running into the lamp by the
/// multi-sample balance heuristic (Veach 1997, 9.2.2).
template <class Payload>
void ask(const LightSampler& lights, const Lanes& lanes, const Interaction& at, const SampledLights& sampled,
         const PairOf<Floats>& u, bool first, const Payload& payload, std::span<Ray> rays,
         std::span<PendingLight<typename Payload::Contribution>> pending, std::size_t& pending_count) {
    LaneArray<const Emitter*> lamps;
    for (std::size_t k = 0; k < kLanes; ++k)
        lamps[k] = &lights.lamps()[static_cast<std::size_t>(sampled.lamp[k])];
    const LiSamples aim = sample_li(lights, sampled.lamp, at.from_mm, u.x, u.y);
    const Vec3s in = at.basis.to_local(aim.direction);
    const Ints useful = (sampled.expected > 0) & (aim.pdf > 0) & (aim.cd_per_m2 > 0) & (in.z > 0) &
                        (dot(aim.direction, at.point.geometric) > 0);
    const LobeLanes lobes = at.surface.evaluate(in);
    const Floats cd_per_m2 = aim.cd_per_m2 / (sampled.expected * aim.pdf + lobes.density);
    TristimulusWeights own;
    for (std::size_t k = 0; k < lanes.live; ++k) {
        if (!useful[k]) continue;
        auto& a = pending[pending_count];
        a.path = lanes.index[k];
        a.group = lamps[k]->group;
        payload.direct_light(*lanes.paths[k], a.path, BsdfValue{at, k, lobes.base, 1, lobes.interface[k]},
                             weights_from(*lamps[k], lane(aim.direction, k), own), cd_per_m2[k], first,
                             a.light);
        rays[pending_count++] = {lane(at.from_mm, k), aim.distance_mm[k] * 0.9999f, lane(aim.direction, k)};
    }
}

/// Samples lamps at eight vertices.
template <class Payload>
void sample_lights(const LightSampler& lights, const Lanes& lanes, const Interaction& at, const Floats& pick,
                   const PairOf<Floats>& u, int vertex, const Payload& payload, std::span<Ray> rays,
                   std::span<PendingLight<typename Payload::Contribution>> pending,
                   std::size_t& pending_count) {
    const int samples = light_samples(vertex);
    const LightDistribution distribution(lights, at.from_mm, at.point.normal, samples);
    for (int n = 0; n < samples; ++n) {
        const SampledLights sampled = distribution.sample(n, pick);
        if (any(sampled.expected > 0))
            ask(lights, lanes, at, sampled, turned(u, n), vertex == 0, payload, rays, pending, pending_count);
    }
}

/// Samples the scattered directions: the rays of paths that go on, and their numbers, are put at the end of
/// those `going`.
template <class Payload>
void scatter(const Lanes& lanes, const Interaction& at, const Floats& lobe, const PairOf<Floats>& u,
             const Floats& roulette, int vertex, Payload& payload, std::span<Ray> rays,
             std::span<std::uint32_t> alive, std::size_t& going) {
    const auto [in, from_interface, mirror] = at.surface.sample(lobe, u.x, u.y);
    const LobeLanes lobes = at.surface.evaluate(in);
    const Vec3s direction = at.basis.to_world(in);
    const Ints glossy = from_interface & (at.surface.alpha() < kGlossy);
    const Floats base_weight = mirror ? 0.0f : 1 / lobes.density;
    const Floats interface_weight = mirror ? at.surface.mirror_weight() : lobes.interface / lobes.density;
    const Floats pdf = mirror ? 0.0f : lobes.density;
    const Ints goes = (in.z > 0) & (dot(direction, at.point.geometric) > 0) & (mirror | (pdf > 0));
    const LaneArray<Floats> next = transposed({at.from_mm.x, at.from_mm.y, at.from_mm.z, broadcast(kFar_mm),
                                               direction.x, direction.y, direction.z, Floats{}});
    for (std::size_t k = 0; k < lanes.live; ++k) {
        if (!goes[k]) continue;
        Path& path = *lanes.paths[k];
        payload.reflect(path, lanes.index[k],
                        BsdfValue{at, k, lobes.base, base_weight[k], interface_weight[k]}, vertex == 0);
        if (vertex >= 2) {  // Russian roulette by what is left of the light
            const float keep = std::min(0.95f, payload.max_throughput(path, lanes.index[k]));
            if (roulette[k] >= keep) continue;
            payload.scale(path, lanes.index[k], 1 / keep);
        }
        path.eye_sees = path.eye_sees && glossy[k];
        path.bounce_pdf = pdf[k];
        path.last_normal = lane(at.point.normal, k);
        rays[going] = std::bit_cast<Ray>(next[k]);
        alive[going++] = lanes.index[k];
    }
}

}  // namespace path_detail

}  // namespace rakelight
