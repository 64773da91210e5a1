// The payload of a light path: what it carries for a picture, and how it is splatted. trace_wavefront is a
// template on it, so that another one may carry for several pictures at once (variant_paths.h); paths go the
// same way whatever they carry.
#pragma once

#include <cstdint>
#include <glm/glm.hpp>
#include <span>

#include "materials/colour/tristimulus_weights.h"
#include "renderer/vertices.h"

namespace rakelight {

/// Where light is splatted, added up: [slot * groups + group].
struct PathSums {
    std::span<glm::dvec3> xyz;   ///< cd/m2
    std::span<double> mirrored;  ///< luminance by the first interface alone, cd/m2; empty = not asked for
    std::span<float> of_path;    ///< luminance of [path * groups + group] of the wavefront, cd/m2; or empty
};

namespace path_detail {

/// XYZ, cd/m2, of light of `cd_per_m2` whose colour `weights` tell, after `reflectance`.
inline glm::vec3 xyz_of(const TristimulusWeights& weights, const SampledSpectrum& reflectance,
                        float cd_per_m2) {
    const std::array<float, 3> c = integrate(weights, reflectance);
    return glm::vec3(c[0], c[1], c[2]) * cd_per_m2;
}

/// Share of what an interface mirrors in what it and the base reflect together, mean of the bands, 0..1.
inline float share_of_interface(float interface, const SampledSpectrum& base) {
    return interface > 0 ? interface / (interface + mean(base)) : 0.0f;
}

}  // namespace path_detail

/// The payload of one picture: all of it lies in the path. `number`: the path's place in its wavefront.
struct PathPayload {
    PathSums sums;
    std::size_t groups;
    float patience = 1;  ///< Russian roulette sets in when what is left of the light is below 1 / this

    /// Light found by a path, before it is splatted.
    struct Contribution {
        glm::vec3 xyz{};  ///< cd/m2
        float first_surface_cd_per_m2 = 0;
    };

    /// The eye ray of a path has met `object`.
    void first_hit(std::uint32_t, const Object&) {}

    /// Light of a lamp that a path has run into.
    void hit_light(const Path& path, std::uint32_t, const TristimulusWeights& weights, float cd_per_m2,
                   Contribution& light) const {
        light.xyz = path_detail::xyz_of(weights, path.throughput, cd_per_m2);
        light.first_surface_cd_per_m2 = light.xyz.y * path.mirrored;
    }

    /// Direct light of a lamp sampled at a vertex. `first`: at the path's first.
    void direct_light(const Path& path, std::uint32_t, const path_detail::BsdfValue& reflected,
                      const TristimulusWeights& weights, float cd_per_m2, bool first,
                      Contribution& light) const {
        const SampledSpectrum base = reflected.base();
        light.xyz = path_detail::xyz_of(weights, path.throughput * (base + reflected.interface), cd_per_m2);
        light.first_surface_cd_per_m2 =
            light.xyz.y *
            (first ? path_detail::share_of_interface(reflected.interface, base) : path.mirrored);
    }

    /// The path goes on from a vertex.
    void reflect(Path& path, std::uint32_t, const path_detail::BsdfValue& reflected, bool first) {
        const SampledSpectrum base = reflected.base();
        path.throughput *= base + reflected.interface;
        if (first) path.mirrored = path_detail::share_of_interface(reflected.interface, base);
    }

    /// What is left of the light in its brightest band, as roulette counts it.
    float max_throughput(const Path& path, std::uint32_t) const {
        return patience * max_value(path.throughput);
    }

    void scale(Path& path, std::uint32_t, float factor) { path.throughput *= factor; }

    /// `indirect`: other surfaces than the first have reflected it as well.
    void splat(Path& path, std::uint32_t number, const Contribution& light, std::uint32_t group,
               bool indirect) {
        const std::size_t at = path.slot * groups + group;
        sums.xyz[at] += glm::dvec3(light.xyz);
        if (!sums.mirrored.empty()) sums.mirrored[at] += static_cast<double>(light.first_surface_cd_per_m2);
        if (!sums.of_path.empty()) sums.of_path[number * groups + group] += light.xyz.y;
        path.luminance_cd_per_m2 += light.xyz.y;
        path.first_surface_cd_per_m2 += light.first_surface_cd_per_m2;
        if (indirect && light.xyz.y > 0)
            path.indirect_xyz += light.xyz * (1 - light.first_surface_cd_per_m2 / light.xyz.y);
    }
};

}  // namespace rakelight
