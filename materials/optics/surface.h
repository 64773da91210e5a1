// The BSDF of a material at a point: an interface (coat) over a base, compiled for speed, with
// evaluation, sampling and density inline. Local frame: z is the shading normal; directions are unit and
// point away from the surface, z > 0. `out` is toward the viewer's side of the path, `in` toward the lamp's
// side.
//
// The interface is single reflection off GGX facets (or a mirror). All that it does not mirror enters the
// base, whose light leaves as (1-E(out)) (1-E(in)) / (pi (1-mean E)) * A(out, in) with E the interface's
// albedo: reciprocal, and exactly lossless for a white base, whatever the roughness (the pairing of Kelemen
// and Szirmay-Kalos 2001). A is constant for an opaque base (Saunderson 1942) and g(out) g(in) for a
// translucent layer (layer.h). Metal leaf, bare or under glass, has a coloured lobe of its own (leaf.h),
// which counts to the base: it is the stuff's own colour, not a veil over it.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <glm/glm.hpp>
#include <numbers>

#include "materials/colour/sampled_spectrum.h"
#include "materials/maths/circle.h"
#include "materials/optics/fresnel.h"
#include "materials/optics/ggx.h"
#include "materials/optics/interface_table.h"
#include "materials/optics/layer.h"
#include "materials/optics/leaf.h"
#include "materials/optics/material.h"
#include "materials/optics/matte.h"

namespace rakelight {

/// BRDF times cosine of `in`, per steradian: the base's part per band and the interface's, which has no
/// colour.
struct Lobes {
    SampledSpectrum base;
    float interface = 0;
};

/// A compiled material. A value; refers to an InterfaceTable of the cache it was made with, which must
/// outlive it.
struct Surface {
    enum class Base : std::uint8_t { even, matte, layered, leaf };

    const InterfaceTable* interface = nullptr;  ///< none: bare stuff
    Base kind = Base::even;
    bool anisotropic = false;  ///< interface or leaf looks different along x and along y
    float mean_albedo = 0;     ///< of the base, over bands and directions, for choosing lobes
    float base_norm = std::numbers::inv_pi_v<float>;  ///< 1 / (pi (1 - mean albedo of the interface)); leaf:
                                                      ///< of its even part
    float max_base_scale = 1;  ///< largest `base_scale` that keeps every reflectance at most 1
    Matte matte;
    LayerCosine cosine;  ///< layered, leaf: where a direction falls among the nodes
    LeafShape leaf;
    SampledSpectrum even;   ///< even: A; matte: reflectance of a facet; layered: mean of g
    SampledSpectrum among;  ///< matte: reflectance of light scattered among facets; leaf: even part
    std::array<SampledSpectrum, kLayerNodes>
        g{};  ///< layered: square root of A at the nodes; leaf: colour of its lobe

    /// Share of the light at cosine `z` that passes the interface into the base.
    float transmittance(float z) const { return interface ? 1 - interface->albedo(z) : 1; }
    /// The same from one direction.
    float transmittance(const glm::vec3& v) const { return interface ? 1 - interface->albedo(v) : 1; }
    bool has_rough_interface() const { return interface && interface->slopes.alpha > 0; }

    friend bool operator==(const Surface&, const Surface&) = default;
};

/// Whether paths go the same ways on both: all members are equal but the colour, that is the bands and the
/// chances that are drawn from them. A member that is new counts as different until it is called a colour
/// here.
inline bool same_routing(Surface a, const Surface& b) {
    a.mean_albedo = b.mean_albedo;
    a.max_base_scale = b.max_base_scale;
    a.leaf.lobe_share = b.leaf.lobe_share;
    a.even = b.even;
    a.among = b.among;
    a.g = b.g;
    return a == b;
}

/// What a translucent piece shows of the filling at its sides: light that enters near an edge meets a side
/// wall before the bed, halfway down in the mean, and comes back by a way half as long. Pale grout so washes
/// glass out, and dark grout deepens it.
struct SideWall {
    SampledSpectrum reflectance;  ///< of the filling in contact, 0..1
    double share = 0;             ///< of the entering light that meets a side first, 0..1
};

/// Compiles `material` at `thickness_mm` over a backing in optical contact.
/// `backing_reflectance`: 0..1, met only by translucent stuff. `tone`: factor on the absorption of the base,
/// > 0; 1 = as it is (for an opaque base, on Kubelka-Munk K/S). Takes microseconds, or about a millisecond
/// for a translucent base that scatters, tens of them for the first leaf of its kind: make few tones of a
/// material, not one for each piece. \throws std::invalid_argument naming the material when a value is out of
/// its range.
Surface make_surface(const Material& material, double thickness_mm,
                     const SampledSpectrum& backing_reflectance, double tone, InterfaceTables& cache,
                     const SideWall& side = {});

/// The glassy patches of a slag (`Material::glassy_*`) over the same opaque base. \throws as make_surface.
Surface make_glassy_surface(const Material& material, double tone, InterfaceTables& cache);

/// Share of the light from direction `out` (unit, z > 0) that comes back in all, per band (interface and
/// base).
SampledSpectrum directional_albedo(const Surface& surface, const glm::vec3& out);
/// The same from the cosine `z`, over x where it is not the same every way round.
inline SampledSpectrum directional_albedo(const Surface& surface, float z) {
    return directional_albedo(surface, glm::vec3(std::sqrt(std::max(0.f, 1 - z * z)), 0, z));
}

/// Base BRDF times `scale`, per steradian (without the cosine); not of leaf.
inline SampledSpectrum base_brdf(const Surface& s, const glm::vec3& out, const glm::vec3& in, float scale) {
    SampledSpectrum r;  // one pass over the bands: they stay in registers
    if (s.kind == Surface::Base::matte) {
        const float single = scale * s.base_norm * matte_single(s.matte, out, in);
        const float among = scale * s.base_norm * matte_multiple(s.matte, out.z, in.z);
        for (int i = 0; i < kBandCount; ++i) r[i] = s.even[i] * single + s.among[i] * among;
        return r;
    }
    const float through = scale * s.base_norm * s.transmittance(out) * s.transmittance(in);
    if (s.kind == Surface::Base::even) {
        for (int i = 0; i < kBandCount; ++i) r[i] = s.even[i] * through;
        return r;
    }
    const auto a = s.cosine.find(out.z), b = s.cosine.find(in.z);
    const SampledSpectrum &a0 = s.g[a.node], &a1 = s.g[a.node + 1], &b0 = s.g[b.node], &b1 = s.g[b.node + 1];
    for (int i = 0; i < kBandCount; ++i)
        r[i] = through * (a0[i] + a.part * (a1[i] - a0[i])) * (b0[i] + b.part * (b1[i] - b0[i]));
    return r;
}

/// The same of leaf, and into `density` the density with which leaf_sample takes `in`.
inline SampledSpectrum leaf_base(const Surface& s, const glm::vec3& out, const glm::vec3& in, float scale,
                                 float& density) {
    const LeafLobe lobe = leaf_lobe(s.interface, s.leaf, s.cosine, out, in);
    density = lobe.density;
    const SampledSpectrum &low = s.g[lobe.spot.node], &high = s.g[lobe.spot.node + 1];
    const float metal = scale * lobe.metal, even = scale * s.base_norm * lobe.even;
    SampledSpectrum r;
    for (int i = 0; i < kBandCount; ++i)
        r[i] = metal * (low[i] + lobe.spot.part * (high[i] - low[i])) + even * s.among[i];
    return r;
}

/// Probability with which `sample` should take the interface. Seen by the eye, a glossy interface gets at
/// least 0.4, so that glints converge before the duller base does.
inline float interface_probability(const Surface& s, const glm::vec3& out, bool seen_by_eye) {
    if (!s.interface) return 0;
    const float mirrored = s.interface->albedo(glm::vec3(out.x, out.y, std::max(out.z, 0.f)));
    const float scattered = (1 - mirrored) * s.mean_albedo;
    if (!(scattered > 0)) return 1;
    const float share = mirrored / (mirrored + scattered);
    const float least = seen_by_eye && s.interface->slopes.alpha < 0.5f ? 0.4f : 0.02f;
    return std::min(std::max(share, least), 0.95f);
}

/// Both lobes, and into `density` the density per steradian with which `sample` takes `in` (mirror excluded).
/// A mirror interface has no finite part: `interface` is then 0, and only `sample` meets it.
/// `base_scale` multiplies the base (grain), 0..Surface::max_base_scale.
inline Lobes evaluate(const Surface& s, const glm::vec3& out, const glm::vec3& in, float base_scale,
                      float probability, float& density) {
    Lobes r;
    density = 0;
    if (!(out.z > 0 && in.z > 0)) return r;
    if (s.kind == Surface::Base::leaf) {
        r.base = leaf_base(s, out, in, base_scale, density);
        density *= 1 - probability;
    } else {
        r.base = base_brdf(s, out, in, base_scale * in.z);
        density = (1 - probability) * in.z * std::numbers::inv_pi_v<float>;
    }
    if (s.has_rough_interface()) {
        const Slopes& slopes = s.interface->slopes;
        const float facets = ggx_density(out + in, slopes), reach = ggx_reach(out, slopes);
        const float toward =
            std::sqrt(std::min(1.f, 0.5f + 0.5f * glm::dot(out, in)));  // cosine on the facet
        r.interface = dielectric_reflectance(toward, s.interface->index) * facets *
                      ggx_visibility(out.z, reach, in.z, ggx_reach(in, slopes)) * in.z;
        density += probability * ggx_reflection_pdf(out.z, reach, facets);
    }
    return r;
}

/// Both lobes alone.
inline Lobes evaluate(const Surface& s, const glm::vec3& out, const glm::vec3& in, float base_scale) {
    float density;
    return evaluate(s, out, in, base_scale, 0, density);
}

/// Density per steradian with which `sample` takes `in`, mirror excluded.
inline float pdf(const Surface& s, const glm::vec3& out, const glm::vec3& in, float probability) {
    if (!(out.z > 0 && in.z > 0)) return 0;
    float density = in.z * std::numbers::inv_pi_v<float>;
    if (s.kind == Surface::Base::leaf) density = leaf_lobe(s.interface, s.leaf, s.cosine, out, in).density;
    density *= 1 - probability;
    if (s.has_rough_interface())
        density += probability * ggx_reflection_pdf(out.z, ggx_reach(out, s.interface->slopes),
                                                    ggx_density(out + in, s.interface->slopes));
    return density;
}

/// A sampled continuation. `mirror`: `lobes.interface` is the reflectance itself and `pdf` the chance of
/// having taken it (weight = interface / pdf), the base 0. Otherwise weight = (base + interface) / pdf with
/// the density of both lobes.
struct Bounce {
    glm::vec3 in{0, 0, 1};
    Lobes lobes;
    float pdf = 0;
    bool mirror = false;
    bool from_interface = false;
};

/// Takes a direction; false (path ends, weight 0) when it falls below the surface. `u` in [0, 1)^3: the first
/// chooses the lobe.
inline bool sample(const Surface& s, const glm::vec3& out, float probability, const glm::vec3& u,
                   float base_scale, Bounce& b) {
    if (!(out.z > 0)) return false;
    b.from_interface = s.interface && u.x < probability;
    b.mirror = b.from_interface && !s.has_rough_interface();
    if (b.mirror) {
        b.in = {-out.x, -out.y, out.z};
        b.lobes = {SampledSpectrum(), dielectric_reflectance(out.z, s.interface->index)};
        b.pdf = probability;
        return true;
    }
    if (b.from_interface) {
        const glm::vec3 half = ggx_visible_normal(out, s.interface->slopes, {u.y, u.z});
        b.in = 2 * glm::dot(out, half) * half - out;
    } else if (s.kind == Surface::Base::leaf) {
        b.in = leaf_sample(s.leaf, out, {(u.x - probability) / (1 - probability), u.y, u.z});
    } else {
        b.in = cosine_direction({u.y, u.z});
    }
    if (!(b.in.z > 0)) return false;
    b.lobes = evaluate(s, out, b.in, base_scale, probability, b.pdf);
    return b.pdf > 0;
}

}  // namespace rakelight
