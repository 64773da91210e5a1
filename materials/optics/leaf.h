// Gold or silver leaf, bare or under clear glass: a coloured lobe of wrinkled metal, seen through the
// interface, and an even part of what met more than one wrinkle, of what was caught under the interface on
// the way out, and of what milky glass scattered. With white metal and clear glass the two and the interface
// add up to 1 from every direction. Sources: Kulla and Conty 2017, SIGGRAPH course notes (light lost between
// facets given back); metal.h (what a smooth leaf returns). Under glass the wrinkles look steeper by the
// factor of its index, for small slopes.
#pragma once

#include <algorithm>
#include <cmath>
#include <glm/glm.hpp>
#include <numbers>

#include "materials/optics/ggx.h"
#include "materials/optics/interface_table.h"
#include "materials/optics/layer.h"

namespace rakelight {

/// What of a leaf has no colour. Colours stay in Surface: `g` at the nodes of the refracted cosine, of the
/// light that entered; `among` of the even part.
struct LeafShape {
    const InterfaceTable* table = nullptr;  ///< of white leaf under this interface; none: no leaf
    float clear = 1;                        ///< share of it that no milkiness scatters, 0..1
    float beside = 0;  ///< share of its light that meets the sides of the glass on both crossings, for each
                       ///< unit of the refracted ray's tangent
    float lobe_share = 1;  ///< of samples of the base, that take the wrinkles
    friend bool operator==(const LeafShape&, const LeafShape&) = default;
};

/// One direction pair of a leaf, times the cosine of `in`, per steradian.
struct LeafLobe {
    float metal = 0;         ///< factor on the metal's colour at `spot`
    float even = 0;          ///< factor on `among`, without base_norm
    LayerCosine::Spot spot;  ///< where the facet's cosine falls
    float density = 0;       ///< with which `leaf_sample` takes `in`
};

/// Share of the light at the outer cosine `z` that comes back past the sides of the glass. The law is of
/// short moves: some always does.
inline float leaf_keeps(const InterfaceTable* interface, const LeafShape& leaf, float z) {
    if (!(leaf.beside > 0)) return 1;
    const float index = interface ? interface->index : 1, sine2 = (1 - z * z) / (index * index);
    return std::max(0.1f, 1 - leaf.beside * std::sqrt(sine2 / std::max(1 - sine2, 1e-6f)));
}

/// What is neither mirrored by the interface nor by the leaf's lobe, from the direction `v`.
inline float leaf_left(const InterfaceTable* interface, const LeafShape& leaf, const glm::vec3& v) {
    return std::max(0.f, 1 - (interface ? interface->albedo(v) : 0) -
                             leaf.clear * leaf_keeps(interface, leaf, v.z) * leaf.table->albedo(v));
}

inline LeafLobe leaf_lobe(const InterfaceTable* interface, const LeafShape& leaf, const LayerCosine& cosine,
                          const glm::vec3& out, const glm::vec3& in) {
    const Slopes& slopes = leaf.table->slopes;
    const float facets = ggx_density(out + in, slopes), reach = ggx_reach(out, slopes);
    const float toward = std::sqrt(std::max(0.f, std::min(1.f, 0.5f + 0.5f * glm::dot(out, in))));
    LeafLobe r;
    // Both crossings of a smooth interface, less the one that the colour holds already: of a mirrored ray
    // they are equal, and of any other the lesser keeps reciprocity and energy.
    const float through = interface ? 1 - interface->albedo(std::min(out.z, in.z)) : 1;
    r.metal = through * facets * ggx_visibility(out.z, reach, in.z, ggx_reach(in, slopes)) * in.z;
    r.even = leaf_left(interface, leaf, out) * leaf_left(interface, leaf, in) * in.z;
    r.spot = cosine.find(toward);
    r.density = leaf.lobe_share * ggx_reflection_pdf(out.z, reach, facets) +
                (1 - leaf.lobe_share) * in.z * std::numbers::inv_pi_v<float>;
    return r;
}

/// A direction of the leaf; `u` in [0, 1)^3, the first chooses wrinkles or even. May lie below the surface.
inline glm::vec3 leaf_sample(const LeafShape& leaf, const glm::vec3& out, const glm::vec3& u) {
    if (u.x >= leaf.lobe_share) return cosine_direction({u.y, u.z});
    const glm::vec3 half = ggx_visible_normal(out, leaf.table->slopes, {u.y, u.z});
    return 2 * glm::dot(out, half) * half - out;
}

/// Directional albedo of the lobe of white leaf (`alpha` as it looks from outside, 0.01 to 1, drawn out by
/// `stretch`) under `interface`, null for bare leaf.
InterfaceTable make_leaf_table(const InterfaceTable* interface, float alpha, float stretch = 1);

}  // namespace rakelight
