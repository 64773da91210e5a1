// Light paths, from the eye back to the lamps: at every vertex one lamp is asked for directly and one
// direction is followed; the two are weighed against each other by the balance heuristic (Veach 1997). A path
// carries 16 bands of reflectance; a lamp turns them into XYZ of its group. Paths go in company, a vertex at
// a time, so that rays which start and end together are asked about together and memory is fetched before it
// is needed; vertices are shaded by eights. What a path brings home does not depend on its company.
#pragma once

#include <array>
#include <glm/glm.hpp>
#include <span>

#include "renderer/bvh.h"
#include "renderer/lamp_field.h"
#include "renderer/path_load.h"
#include "renderer/vertices.h"
#include "scene/world/world.h"

namespace rakelight {

inline constexpr std::size_t kMostPaths = 128;  // in one company
inline constexpr int kMostVertices = 96;        // of a path; Russian roulette ends nearly all long before

/// Which lamps shine and what stands in their light: what every path of a picture shares.
template <class RayCaster>
struct Stage {
    const World& world;
    const RayCaster& bvh;
    const LampField& lamps;
};

namespace path_detail {

/// Fetches what the shading of these hits will read, one link of the chain at a time. `first`: hits of eye
/// rays; those of later vertices mostly read the blunt surface.
inline void fetch_ahead(const World& world, std::span<const Hit> hits, bool first) {
    for (const Hit& hit : hits)
        if (hit.triangle != kNone) __builtin_prefetch(&world.shades[hit.triangle]);
    for (const Hit& hit : hits)
        if (hit.triangle != kNone) __builtin_prefetch(&world.things[world.shades[hit.triangle].thing]);
    for (const Hit& hit : hits) {
        if (hit.triangle == kNone) continue;
        const Thing& thing = world.things[world.shades[hit.triangle].thing];
        const auto* surface =
            reinterpret_cast<const char*>(&world.surfaces[first ? thing.surface : thing.blunt_surface]);
        for (std::size_t line = 0; line < 6; ++line) __builtin_prefetch(surface + 64 * line);
    }
}

/// Adds the lamp or surround that a path runs into; true when the path ends there.
template <class RayCaster, class Load>
bool ends_in_light(const Stage<RayCaster>& stage, Load& load, Path& path, std::uint32_t number,
                   const Hit& hit) {
    typename Load::Light light;
    const float reach = hit.triangle == kNone ? kFar_mm : hit.distance_mm;
    if (const LampHit lamp = stage.lamps.meet(path.from_mm, path.direction, reach); lamp.lamp != kNoLamp) {
        const Emitter& e = stage.lamps.lamps()[lamp.lamp];
        float weight = 1;
        if (path.bounce_pdf > 0) {
            const float aimed = share_of_lamp(stage.lamps, lamp.lamp, path.from_mm, path.last_normal) *
                                aim_pdf(e, path.from_mm, path.direction, lamp.distance_mm);
            weight = path.bounce_pdf / (path.bounce_pdf + aimed);
        }
        load.met(path, number, e.weights, lamp.cd_per_m2 * weight, light);
        load.bring_home(path, number, light, e.group);
        return true;  // a lamp's face is taken as black
    }
    if (hit.triangle != kNone) return false;
    if (const auto& surround = stage.world.surround) {
        load.met(path, number, surround->weights, surround->cd_per_m2, light);
        load.bring_home(path, number, light, surround->group);
    }
    return true;
}

/// Sorts out the paths that end in a lamp or in nothing; the rest, as places in `alive`, fill `meeting`.
template <class RayCaster, class Load>
std::size_t end_in_light(const Stage<RayCaster>& stage, Load& load, std::span<Path> paths,
                         std::span<const std::uint32_t> alive, std::span<const Hit> hits,
                         std::span<std::uint32_t> meeting) {
    std::size_t count = 0;
    for (std::size_t first = 0; first < alive.size(); first += kLanes) {
        const std::size_t live = std::min(kLanes, alive.size() - first);
        const auto number = [&](std::size_t k) { return alive[first + std::min(k, live - 1)]; };
        const auto path = [&](std::size_t k) -> Path& { return paths[number(k)]; };
        const Ints near = stage.lamps.may_meet(
            gather3([&](std::size_t k) -> const glm::vec3& { return path(k).from_mm; }),
            gather3([&](std::size_t k) -> const glm::vec3& { return path(k).direction; }));
        for (std::size_t k = 0; k < live; ++k) {
            const Hit& hit = hits[first + k];
            if ((near[k] || hit.triangle == kNone) && ends_in_light(stage, load, path(k), number(k), hit))
                continue;
            meeting[count++] = static_cast<std::uint32_t>(first + k);
        }
    }
    return count;
}

}  // namespace path_detail

/// Follows paths to their ends. At most kMostPaths. What they carry, and where it is added, is the load's.
template <class RayCaster, class Load>
void trace_company(const Stage<RayCaster>& stage, std::span<Path> paths, Load& load) {
    using namespace path_detail;
    std::array<std::uint32_t, kMostPaths> alive;
    std::array<Ray, kMostPaths> rays;
    std::array<Hit, kMostPaths> hits;
    std::array<std::uint32_t, kMostPaths> meeting;
    std::array<Asked<typename Load::Light>, kMostPaths> asked;
    std::array<bool, kMostPaths> occluded;
    std::size_t count = paths.size();
    for (std::size_t i = 0; i < count; ++i) alive[i] = static_cast<std::uint32_t>(i);

    for (int vertex = 0; vertex < kMostVertices && count > 0; ++vertex) {
        for (std::size_t i = 0; i < count; ++i) {
            const Path& path = paths[alive[i]];
            rays[i] = {path.from_mm, kFar_mm, path.direction};
        }
        stage.bvh.intersect({rays.data(), count}, {hits.data(), count}, vertex == 0);
        fetch_ahead(stage.world, {hits.data(), count}, vertex == 0);

        const std::size_t met =
            end_in_light(stage, load, paths, {alive.data(), count}, {hits.data(), count}, meeting);
        const bool evenly = vertex < kEvenVertices;
        std::size_t going = 0;
        std::size_t asking = 0;
        for (std::size_t first = 0; first < met; first += kLanes) {
            Eight eight;
            eight.live = std::min(kLanes, met - first);
            for (std::size_t k = 0; k < kLanes; ++k) {
                const std::uint32_t place = meeting[first + std::min(k, eight.live - 1)];
                eight.index[k] = alive[place];
                eight.paths[k] = &paths[alive[place]];
                eight.hits[k] = &hits[place];
            }
            const Vertices at = arrive(stage.world, eight);
            if (vertex == 0)
                for (std::size_t k = 0; k < eight.live; ++k) {
                    const Thing& thing = *at.point.things[k];
                    load.see(eight.index[k], thing);
                    eight.paths[k]->sight = {eight.hits[k]->distance_mm, lane(at.point.normal, k),
                                             thing.piece, thing.material};
                }

            const SamplePoint<Words> numbers = sample_points(eight);
            const std::uint32_t ahead = kPairsAVertex * static_cast<std::uint32_t>(vertex) + 1;
            const PairOf<Floats> which = numbers.pair_at(ahead, evenly);
            if (stage.lamps.size() > 0)
                ask_lamps(stage.lamps, eight, at, which.x, numbers.pair_at(ahead + 1, evenly), vertex == 0,
                          load, rays, asked, asking);
            const unsigned on = go_on(eight, at, which.y, numbers.pair_at(ahead + 2, evenly),
                                      numbers.random_pair(ahead + 3).x, vertex, load);
            for (std::size_t k = 0; k < eight.live; ++k)
                if (on >> k & 1) alive[going++] = eight.index[k];
        }

        stage.bvh.occluded({rays.data(), asking}, {occluded.data(), asking});
        for (std::size_t i = 0; i < asking; ++i)
            if (!occluded[i])
                load.bring_home(paths[asked[i].path], asked[i].path, asked[i].light, asked[i].group);
        count = going;
    }
}

/// The same for one picture. `sums` are added to.
template <class RayCaster>
void trace_paths(const Stage<RayCaster>& stage, std::span<Path> paths, const PathSums& sums) {
    PathLoad load{sums, stage.world.groups.size()};
    trace_company(stage, paths, load);
}

/// The same for XYZ alone.
template <class RayCaster>
void trace_paths(const Stage<RayCaster>& stage, std::span<Path> paths, std::span<glm::dvec3> xyz) {
    trace_paths(stage, paths, PathSums{xyz, {}});
}

}  // namespace rakelight
