#include "renderer/variant_paths.h"

namespace rakelight {

namespace {

using path_detail::BsdfValue;

// What a surface met is in each picture.
struct Differing {
    bool differs = false;
    std::uint32_t number = 0;
    std::array<float, kMostVariants> scale;  // factor on the base: grain is cut off where it would pass 1

    Differing(const VariantScene& variants, const BsdfValue& reflected, bool fine) {
        const ShadingLanes& point = reflected.at.point;
        const std::size_t k = reflected.lane;
        number = static_cast<std::uint32_t>(point.surfaces[k] - variants.scene.world.surfaces.data());
        differs = variants.surfaces.differs[number] != 0;
        if (!differs) return;
        scale.fill(1);
        const Object& object = *point.objects[k];
        if (!fine || object.grain.contrast <= 0) return;
        const float lead = point.base_scale[k];
        const float grain = lead < point.surfaces[k]->max_base_scale
                                ? lead
                                : grain_scale(object, path_detail::lane(point.at_mm, k));
        for (std::size_t p = 0; p < variants.surfaces.count(); ++p)
            scale[p] = std::min(grain, variants.surfaces.of[p][number].max_base_scale) / lead;
    }

    SampledSpectrum base(const VariantScene& variants, const BsdfValue& reflected,
                         std::size_t picture) const {
        return reflected.base_of(variants.surfaces.of[picture][number], scale[picture]);
    }
};

// As PathPayload, for several pictures.
struct VariantPayload {
    const VariantScene& variants;
    std::span<VariantPath> parts;  // [number of the path]
    VariantSums& sums;

    // In each picture if the path has split, in the first place if not.
    struct Contribution {
        std::array<glm::vec3, kMostVariants> xyz;
        std::array<float, kMostVariants> mirrored;
        bool split = false;
    };

    std::size_t count(bool split) const { return split ? sums.pictures : 1; }

    void first_hit(std::uint32_t number, const Object& object) {
        parts[number].seen =
            variants.kinds[static_cast<std::size_t>(&object - variants.scene.world.objects.data())];
    }

    void hit_light(const Path& path, std::uint32_t number, const TristimulusWeights& weights, float cd_per_m2,
                   Contribution& light) const {
        const VariantPath& part = parts[number];
        light.split = part.split;
        for (std::size_t p = 0; p < count(part.split); ++p) {
            light.xyz[p] =
                path_detail::xyz_of(weights, part.split ? part.throughput[p] : path.throughput, cd_per_m2);
            light.mirrored[p] = part.split ? part.mirrored[p] : path.mirrored;
        }
    }

    void direct_light(const Path& path, std::uint32_t number, const BsdfValue& reflected,
                      const TristimulusWeights& weights, float cd_per_m2, bool first,
                      Contribution& light) const {
        const VariantPath& part = parts[number];
        const Differing here(variants, reflected, path.eye_sees);
        light.split = part.split || here.differs;
        const SampledSpectrum base = reflected.base();
        for (std::size_t p = 0; p < count(light.split); ++p) {
            const SampledSpectrum own = here.differs ? here.base(variants, reflected, p) : base;
            const SampledSpectrum& so_far = part.split ? part.throughput[p] : path.throughput;
            light.xyz[p] = path_detail::xyz_of(weights, so_far * (own + reflected.interface), cd_per_m2);
            light.mirrored[p] = first        ? path_detail::share_of_interface(reflected.interface, own)
                                : part.split ? part.mirrored[p]
                                             : path.mirrored;
        }
    }

    void reflect(Path& path, std::uint32_t number, const BsdfValue& reflected, bool first) {
        VariantPath& part = parts[number];
        const Differing here(variants, reflected, path.eye_sees);
        if (here.differs && reflected.base_weight > 0 && !part.split) {
            part.split = true;
            for (std::size_t p = 0; p < sums.pictures; ++p) {
                part.throughput[p] = path.throughput;
                part.mirrored[p] = path.mirrored;
            }
        }
        const SampledSpectrum base = reflected.base();
        for (std::size_t p = 0; p < count(part.split); ++p) {
            const SampledSpectrum own = here.differs ? here.base(variants, reflected, p) : base;
            (part.split ? part.throughput[p] : path.throughput) *= own + reflected.interface;
            if (first)
                (part.split ? part.mirrored[p] : path.mirrored) =
                    path_detail::share_of_interface(reflected.interface, own);
        }
    }

    // In the brightest picture.
    float max_throughput(const Path& path, std::uint32_t number) const {
        const VariantPath& part = parts[number];
        if (!part.split) return max_value(path.throughput);
        float brightest = 0;
        for (std::size_t p = 0; p < sums.pictures; ++p)
            brightest = std::max(brightest, max_value(part.throughput[p]));
        return brightest;
    }

    void scale(Path& path, std::uint32_t number, float factor) {
        VariantPath& part = parts[number];
        for (std::size_t p = 0; p < count(part.split); ++p)
            (part.split ? part.throughput[p] : path.throughput) *= factor;
    }

    void splat(Path& path, std::uint32_t number, const Contribution& light, std::uint32_t group, bool) {
        const std::size_t pictures = count(light.split);
        glm::dvec3* const to = light.split ? &sums.own[path.slot * sums.pictures * sums.groups + group]
                                           : &sums.shared[path.slot * sums.groups + group];
        const std::size_t kind = static_cast<std::size_t>(parts[number].seen);
        const std::size_t seen_at =
            (kind * (sums.pictures + 1) + (light.split ? 1 : 0)) * sums.groups + group;
        float y = 0, first = 0;
        for (std::size_t p = 0; p < pictures; ++p) {
            const glm::dvec3 xyz(light.xyz[p]);
            to[p * sums.groups] += xyz;
            sums.seen[seen_at + p * sums.groups] += xyz;
            sums.seen_by_body[seen_at + p * sums.groups] += xyz * double(1 - light.mirrored[p]);
            y += light.xyz[p].y;
            first += light.xyz[p].y * light.mirrored[p];
        }
        y /= static_cast<float>(pictures);
        if (!sums.of_path.empty()) sums.of_path[number * sums.groups + group] += y;
        path.luminance_cd_per_m2 += y;
        path.first_surface_cd_per_m2 += first / static_cast<float>(pictures);
    }
};

}  // namespace

void trace_variants(const VariantScene& variants, std::span<Path> paths, std::span<VariantPath> parts,
                    VariantSums& sums) {
    parts = parts.first(paths.size());
    for (VariantPath& part : parts) {
        part.split = false;
        part.seen = Seen::other;
    }
    VariantPayload payload{variants, parts, sums};
    trace_wavefront(variants.scene, paths, payload);
    for (const VariantPath& part : parts) ++sums.rays[static_cast<std::size_t>(part.seen)];
}

}  // namespace rakelight
