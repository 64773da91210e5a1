#include "renderer/light_meter.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <numbers>

#include "materials/maths/basis.h"
#include "renderer/flush_denormals.h"
#include "renderer/path.h"

namespace rakelight {

namespace {

// Where the meter is held, and what seeds its paths there.
struct MeterPlace {
    glm::vec3 at_mm;
    std::uint32_t seed;
};

// Indirect light that a path has found.
struct Splat {
    std::uint32_t path;
    std::uint32_t group;
    glm::vec3 xyz;
};

// As PathPayload, but keeps what each path splats.
struct MeterPayload : PathPayload {
    std::vector<Splat>& splats;

    void splat(Path& path, std::uint32_t, const Contribution& light, std::uint32_t group, bool) {
        splats.push_back({path.slot, group, light.xyz});
    }
};

// What a wavefront of paths found, kept apart so that it can be added up path by path, whoever was first.
struct Reading {
    std::vector<Splat> indirect;         // by path, then as it came
    std::vector<float> direct;           // cd sr/m2 (lux, of a lamp that is white) of [path][lamp]
    std::vector<glm::dvec3> direct_xyz;  // the same in its colour
};

// XYZ of an emitter of luminance 1 in a direction.
glm::dvec3 colour_of(const Emitter& e, const glm::vec3& to) {
    TristimulusWeights own;
    const std::array<float, 3> c = integrate(weights_from(e, to, own), SampledSpectrum(1.0f));
    return {c[0], c[1], c[2]};
}

// Indirect light: cosine-distributed paths that skip the lamps' own faces. Direct light: every lamp is aimed
// at.
Reading read_wavefront(const SceneView<Bvh>& scene, const MeterPlace& place, const Basis& basis, int first,
                       int end) {
    Reading reading;
    std::vector<Path> paths;
    paths.reserve(static_cast<std::size_t>(end - first));
    for (int i = first; i < end; ++i) {
        Sampler sampler(mix_word(place.seed), static_cast<std::uint32_t>(i));
        const glm::vec3 direction = basis.to_world(cosine_direction(sampler.next()));
        const Hit hit = scene.bvh.intersect({place.at_mm, kFar_mm, direction});
        const float reach = hit.triangle == kNone ? kFar_mm : hit.distance_mm;
        if (scene.lights.intersect(place.at_mm, direction, reach).lamp == kNoLamp)
            paths.push_back({.from_mm = place.at_mm,
                             .direction = direction,
                             .sampler = sampler,
                             .slot = static_cast<std::uint32_t>(i - first)});
        for (const Emitter& e : scene.lights.lamps()) {
            const LiSample aim = sample_li(e, place.at_mm, sampler.next());
            const float cosine = glm::dot(aim.direction, basis.z);
            const bool lit = aim.pdf > 0 && cosine > 0 &&
                             !scene.bvh.occluded({place.at_mm, aim.distance_mm * 0.9999f, aim.direction});
            const float direct = lit ? aim.cd_per_m2 * cosine / aim.pdf : 0.0f;
            reading.direct.push_back(direct);
            reading.direct_xyz.push_back(colour_of(e, aim.direction) * double(direct));
        }
    }
    MeterPayload payload{{{}, scene.world.groups.size()}, reading.indirect};
    trace_wavefront(scene, std::span(paths), payload);
    std::ranges::stable_sort(reading.indirect, {}, &Splat::path);
    return reading;
}

// What was found at each place, wavefront by wavefront.
std::vector<std::vector<Reading>> readings_at(const World& world, const Bvh& bvh,
                                              std::span<const Emitter> lamps,
                                              std::span<const MeterPlace> places, const glm::vec3& normal,
                                              int paths) {
    constexpr int kWavefront = static_cast<int>(kMostPaths);
    const LightSampler lights(lamps);
    const SceneView<Bvh> scene{world, bvh, lights};
    const Basis basis(normal);
    const std::size_t wavefronts = static_cast<std::size_t>((paths + kWavefront - 1) / kWavefront);
    std::vector<std::vector<Reading>> readings(places.size(), std::vector<Reading>(wavefronts));
    tbb::parallel_for(std::size_t{0}, places.size() * wavefronts, [&](std::size_t i) {
        const FlushDenormals flush;
        const int first = static_cast<int>(i % wavefronts) * kWavefront;
        readings[i / wavefronts][i % wavefronts] =
            read_wavefront(scene, places[i / wavefronts], basis, first, std::min(first + kWavefront, paths));
    });
    return readings;
}

// At each place: XYZ of each lamp group.
std::vector<std::vector<glm::dvec3>> illuminance_at(const World& world, const Bvh& bvh,
                                                    std::span<const Emitter> lamps,
                                                    std::span<const MeterPlace> places,
                                                    const glm::vec3& normal, int paths) {
    std::vector<std::vector<glm::dvec3>> all;
    for (const std::vector<Reading>& readings : readings_at(world, bvh, lamps, places, normal, paths)) {
        std::vector<glm::dvec3> total(world.groups.size(), glm::dvec3(0)), indirect = total;
        for (const Reading& reading : readings) {
            for (std::size_t i = 0; i < reading.direct_xyz.size(); ++i)
                total[lamps[i % lamps.size()].group] += reading.direct_xyz[i];
            for (const Splat& light : reading.indirect) indirect[light.group] += glm::dvec3(light.xyz);
        }
        for (std::size_t g = 0; g < total.size(); ++g)
            total[g] = (total[g] + indirect[g] * std::numbers::pi) / double(paths);
        all.push_back(std::move(total));
    }
    return all;
}

}  // namespace

std::vector<glm::dvec3> illuminance_xyz(const World& world, const Bvh& bvh, std::span<const Emitter> lamps,
                                        const glm::vec3& at_mm, const glm::vec3& normal, int paths,
                                        std::uint32_t seed) {
    const MeterPlace place{at_mm, seed};
    return illuminance_at(world, bvh, lamps, std::span(&place, 1), normal, paths).front();
}

LightApart light_apart(const World& world, const Bvh& bvh, std::span<const Emitter> lamps,
                       const glm::vec3& at_mm, const glm::vec3& normal, int paths) {
    const MeterPlace place{at_mm, 1};
    LightApart apart{std::vector<double>(lamps.size(), 0.0), 0};
    const auto readings = readings_at(world, bvh, lamps, std::span(&place, 1), normal, paths);
    for (const Reading& reading : readings.front()) {
        for (std::size_t i = 0; i < reading.direct.size(); ++i)
            apart.direct_lux[i % lamps.size()] += double(reading.direct[i]);
        for (const Splat& light : reading.indirect) apart.indirect_lux += double(light.xyz.y);
    }
    for (std::size_t i = 0; i < lamps.size(); ++i)
        apart.direct_lux[i] *= double(integrate(lamps[i].weights, SampledSpectrum(1.0f))[1]) / paths;
    apart.indirect_lux *= std::numbers::pi / paths;
    return apart;
}

std::vector<glm::dvec3> panel_illuminance_xyz(const World& world, const Bvh& bvh,
                                              std::span<const Emitter> lamps) {
    constexpr int kGrid = 3;
    constexpr float kInFront_mm = 20;
    const glm::vec3 up = glm::normalize(glm::vec3(0, 1, 0) - world.panel_normal * world.panel_normal.y);
    const glm::vec3 right = glm::cross(up, world.panel_normal);
    std::vector<MeterPlace> places;
    for (int i = 0; i < kGrid * kGrid; ++i) {
        const float x = (static_cast<float>(i % kGrid) + 0.5f) / kGrid - 0.5f;
        const float y = (static_cast<float>(i / kGrid) + 0.5f) / kGrid - 0.5f;
        const glm::vec3 at = right * (x * static_cast<float>(world.panel_size_mm.x)) +
                             up * (y * static_cast<float>(world.panel_size_mm.y)) +
                             world.panel_normal * (static_cast<float>(world.panel_size_mm.z) + kInFront_mm);
        places.push_back({at, static_cast<std::uint32_t>(i) + 1});
    }
    std::vector<glm::dvec3> mean(world.groups.size(), glm::dvec3(0));
    for (const auto& here : illuminance_at(world, bvh, lamps, places, world.panel_normal, 1024))
        for (std::size_t g = 0; g < mean.size(); ++g) mean[g] += here[g] / double(kGrid * kGrid);
    return mean;
}

double grey_card_cd_per_m2(std::span<const glm::dvec3> illuminance_xyz) {
    double white = 0;
    for (const glm::dvec3& xyz : illuminance_xyz) white += xyz.y / std::numbers::pi;
    return 0.18 * white;
}

}  // namespace rakelight
