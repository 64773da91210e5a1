// The BSDF of a material at a point: an interface (coat) over a base, compiled for speed; surface_lanes.h
// evaluates and samples it. Local frame: z is the shading normal; directions are unit and point away from the
// surface, z > 0. `out` is towards the viewer's side of the path, `in` towards the lamp's side.
//
// The interface is single reflection off GGX facets (or a mirror). All that it does not mirror enters the
// base, whose light leaves as (1-E(out)) (1-E(in)) / (pi (1-mean E)) * A(out, in) with E the interface's
// albedo: reciprocal, and exactly lossless for a white base, whatever the roughness (the pairing of Kelemen
// and Szirmay-Kalos 2001). A is constant for an opaque base (Saunderson 1942) and g(out) g(in) for a
// translucent layer (layer.h). Metal leaf, bare or under glass, has a coloured lobe of its own (leaf.h),
// which counts to the base: it is the material's own colour, not a veil over it.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <glm/glm.hpp>
#include <numbers>

#include "materials/colour/sampled_spectrum.h"
#include "materials/optics/interface_table.h"
#include "materials/optics/layer.h"
#include "materials/optics/leaf.h"
#include "materials/optics/material.h"
#include "materials/optics/matte.h"
#include "materials/optics/side_wall.h"

namespace rakelight {

/// A compiled material. A value; refers to an InterfaceTable of the cache it was made with, which must
/// outlive it.
struct Surface {
    enum class Base : std::uint8_t { even, matte, layered, leaf };

    const InterfaceTable* interface = nullptr;  ///< none: bare material
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
        g{};                 ///< layered: square root of A at the nodes; leaf: colour of its lobe
    SampledSpectrum flat;    ///< layered: g of a ray that crosses the piece level, to the filling beyond
    float thickness_mm = 0;  ///< layered
    float side_per_mm = 0;   ///< layered: 1 / distance from the edge beyond which `side` stays; 0 = no sides
    std::array<SampledSpectrum, kSidePlaces> side{};  ///< A at each place over its mean, which is that of g

    /// Eight numbers that stand side by side: base_norm, max_base_scale, those of matte and of cosine.
    const float* numbers() const { return &base_norm; }

    /// Share of the light at cosine `z` that passes the interface into the base.
    float transmittance(float z) const { return interface ? 1 - interface->albedo(z) : 1; }
    /// The same from one direction.
    float transmittance(const glm::vec3& v) const { return interface ? 1 - interface->albedo(v) : 1; }
    /// g of a layer at a node and the part of the way to the next; node -1 is level.
    SampledSpectrum g_at(int node, float part) const {
        const SampledSpectrum& low = node < 0 ? flat : g[static_cast<std::size_t>(node)];
        return lerp(low, g[static_cast<std::size_t>(node + 1)], part);
    }
    /// Factor on the base at a distance from the piece's edge.
    SampledSpectrum side_at(float edge_mm) const {
        if (!(side_per_mm > 0)) return SampledSpectrum(1);
        const float x = (kSidePlaces - 1) * std::sqrt(std::clamp(edge_mm * side_per_mm, 0.f, 1.f));
        const int i = std::min(static_cast<int>(x), kSidePlaces - 2);
        const auto at = static_cast<std::size_t>(i);
        return lerp(side[at], side[at + 1], x - static_cast<float>(i));
    }
    /// Whether there is an interface, and no perfect mirror.
    bool has_rough_interface() const { return interface && interface->slopes.alpha > 0; }

    friend bool operator==(const Surface&, const Surface&) = default;
};

static_assert(offsetof(Surface, cosine.per_cosine) == offsetof(Surface, base_norm) + 7 * sizeof(float));

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
    a.flat = b.flat;
    a.side = b.side;
    return a == b;
}

/// Compiles `material` at `thickness_mm` over a backing in optical contact, its sides against `side`. What
/// they make of a layer is the mean of the whole face, and falls off from the edge as Surface::side tells;
/// leaf under glass loses by them on the way down and up again, the more the flatter the ray, the same all
/// over. Of a material with looks (marked.h) the mean of them.
/// `backing_reflectance`: 0..1, met only by translucent material. `tone`: factor on the absorption of the
/// base, > 0; 1 = as it is (for an opaque base, on Kubelka-Munk K/S). Takes microseconds, or about a
/// millisecond for a translucent base that scatters, tens of them for the first leaf of its kind: make few
/// tones of a material, not one for each piece. \throws std::invalid_argument naming the material when a
/// value is out of its range.
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

}  // namespace rakelight
