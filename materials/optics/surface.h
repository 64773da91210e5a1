// What a light path needs of a material at a point: a face over a body, compiled for speed, with evaluation,
// sampling and density inline. Local frame: z is the shading normal; directions are unit and point away from
// the surface, z > 0. `out` is toward the viewer's side of the path, `in` toward the lamp's side.
//
// The face is single reflection off GGX facets (or a mirror). All that it does not mirror enters the body,
// whose light leaves as (1-E(out)) (1-E(in)) / (pi (1-mean E)) * A(out, in) with E the face's albedo:
// reciprocal, and exactly lossless for a white body, whatever the roughness (the pairing of Kelemen and
// Szirmay-Kalos 2001). A is constant for an opaque body (Saunderson 1942) and g(out) g(in) for a translucent
// layer (layer.h). Metal leaf, bare or under glass, has a coloured lobe of its own (leaf.h), which counts to
// the body: it is the stuff's own colour, not a veil over it.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <glm/glm.hpp>
#include <numbers>

#include "materials/colour/bands.h"
#include "materials/maths/circle.h"
#include "materials/optics/face_table.h"
#include "materials/optics/fresnel.h"
#include "materials/optics/ggx.h"
#include "materials/optics/layer.h"
#include "materials/optics/leaf.h"
#include "materials/optics/material.h"
#include "materials/optics/matte.h"

namespace rakelight {

/// BRDF times cosine of `in`, per steradian: the body's part per band and the face's, which has no colour.
struct Lobes {
    Bands body;
    float face = 0;
};

/// A compiled material. A value; refers to a FaceTable of the cache it was made with, which must outlive it.
struct Surface {
    enum class Body : std::uint8_t { even, matte, layered, leaf };

    const FaceTable* face = nullptr;  ///< none: bare stuff
    Body kind = Body::even;
    bool drawn_out = false;  ///< face or leaf looks different along x and along y
    float mean_albedo = 0;   ///< of the body, over bands and directions, for choosing lobes
    float body_norm =
        std::numbers::inv_pi_v<float>;  ///< 1 / (pi (1 - mean albedo of the face)); leaf: of its even part
    float max_body_scale = 1;           ///< largest `body_scale` that keeps every reflectance at most 1
    Matte matte;
    LayerCosine cosine;  ///< layered, leaf: where a direction falls among the nodes
    LeafShape leaf;
    Bands even;   ///< even: A; matte: reflectance of a facet; layered: mean of g
    Bands among;  ///< matte: reflectance of light scattered among facets; leaf: even part
    std::array<Bands, kLayerNodes> g{};  ///< layered: square root of A at the nodes; leaf: colour of its lobe

    /// Share of the light at cosine `z` that passes the face into the body.
    float entering(float z) const { return face ? 1 - face->albedo(z) : 1; }
    /// The same from one direction.
    float entering(const glm::vec3& v) const { return face ? 1 - face->albedo(v) : 1; }
    bool has_rough_face() const { return face && face->slopes.alpha > 0; }

    friend bool operator==(const Surface&, const Surface&) = default;
};

/// Whether paths go the same ways on both: all members are equal but the colour, that is the bands and the
/// chances that are drawn from them. A member that is new counts as different until it is called a colour
/// here.
inline bool routes_alike(Surface a, const Surface& b) {
    a.mean_albedo = b.mean_albedo;
    a.max_body_scale = b.max_body_scale;
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
    Bands reflectance;  ///< of the filling in contact, 0..1
    double share = 0;   ///< of the entering light that meets a side first, 0..1
};

/// Compiles `material` at `thickness_mm` over a backing in optical contact.
/// `backing_reflectance`: 0..1, met only by translucent stuff. `tone`: factor on the absorption of the body,
/// > 0; 1 = as it is (for an opaque body, on Kubelka-Munk K/S). Takes microseconds, or about a millisecond
/// for a translucent body that scatters, tens of them for the first leaf of its kind: make few tones of a
/// material, not one for each piece. \throws std::invalid_argument naming the material when a value is out of
/// its range.
Surface make_surface(const Material& material, double thickness_mm, const Bands& backing_reflectance,
                     double tone, FaceTables& cache, const SideWall& side = {});

/// The glassy patches of a slag (`Material::glassy_*`) over the same opaque body. \throws as make_surface.
Surface make_glassy_surface(const Material& material, double tone, FaceTables& cache);

/// Share of the light from direction `out` (unit, z > 0) that comes back in all, per band (face and body).
Bands directional_albedo(const Surface& surface, const glm::vec3& out);
/// The same from the cosine `z`, over x where it is not the same every way round.
inline Bands directional_albedo(const Surface& surface, float z) {
    return directional_albedo(surface, glm::vec3(std::sqrt(std::max(0.f, 1 - z * z)), 0, z));
}

/// Body BRDF times `scale`, per steradian (without the cosine); not of leaf.
inline Bands body_brdf(const Surface& s, const glm::vec3& out, const glm::vec3& in, float scale) {
    Bands r;  // one pass over the bands: they stay in registers
    if (s.kind == Surface::Body::matte) {
        const float single = scale * s.body_norm * matte_single(s.matte, out, in);
        const float among = scale * s.body_norm * matte_multiple(s.matte, out.z, in.z);
        for (int i = 0; i < kBandCount; ++i) r[i] = s.even[i] * single + s.among[i] * among;
        return r;
    }
    const float through = scale * s.body_norm * s.entering(out) * s.entering(in);
    if (s.kind == Surface::Body::even) {
        for (int i = 0; i < kBandCount; ++i) r[i] = s.even[i] * through;
        return r;
    }
    const auto a = s.cosine.find(out.z), b = s.cosine.find(in.z);
    const Bands &a0 = s.g[a.node], &a1 = s.g[a.node + 1], &b0 = s.g[b.node], &b1 = s.g[b.node + 1];
    for (int i = 0; i < kBandCount; ++i)
        r[i] = through * (a0[i] + a.part * (a1[i] - a0[i])) * (b0[i] + b.part * (b1[i] - b0[i]));
    return r;
}

/// The same of leaf, and into `density` the density with which leaf_sample takes `in`.
inline Bands leaf_body(const Surface& s, const glm::vec3& out, const glm::vec3& in, float scale,
                       float& density) {
    const LeafLobe lobe = leaf_lobe(s.face, s.leaf, s.cosine, out, in);
    density = lobe.density;
    const Bands &low = s.g[lobe.spot.node], &high = s.g[lobe.spot.node + 1];
    const float metal = scale * lobe.metal, even = scale * s.body_norm * lobe.even;
    Bands r;
    for (int i = 0; i < kBandCount; ++i)
        r[i] = metal * (low[i] + lobe.spot.part * (high[i] - low[i])) + even * s.among[i];
    return r;
}

/// Chance with which `sample` should take the face. Seen by the eye, a glossy face gets at least 0.4, so that
/// glints converge before the duller body does.
inline float face_chance(const Surface& s, const glm::vec3& out, bool seen_by_eye) {
    if (!s.face) return 0;
    const float mirrored = s.face->albedo(glm::vec3(out.x, out.y, std::max(out.z, 0.f)));
    const float scattered = (1 - mirrored) * s.mean_albedo;
    if (!(scattered > 0)) return 1;
    const float share = mirrored / (mirrored + scattered);
    const float least = seen_by_eye && s.face->slopes.alpha < 0.5f ? 0.4f : 0.02f;
    return std::min(std::max(share, least), 0.95f);
}

/// Both lobes, and into `density` the density per steradian with which `sample` takes `in` (mirror excluded).
/// A mirror face has no finite part: `face` is then 0, and only `sample` meets it.
/// `body_scale` multiplies the body (grain), 0..Surface::max_body_scale.
inline Lobes evaluate(const Surface& s, const glm::vec3& out, const glm::vec3& in, float body_scale,
                      float chance, float& density) {
    Lobes r;
    density = 0;
    if (!(out.z > 0 && in.z > 0)) return r;
    if (s.kind == Surface::Body::leaf) {
        r.body = leaf_body(s, out, in, body_scale, density);
        density *= 1 - chance;
    } else {
        r.body = body_brdf(s, out, in, body_scale * in.z);
        density = (1 - chance) * in.z * std::numbers::inv_pi_v<float>;
    }
    if (s.has_rough_face()) {
        const Slopes& slopes = s.face->slopes;
        const float facets = ggx_density(out + in, slopes), reach = ggx_reach(out, slopes);
        const float toward =
            std::sqrt(std::min(1.f, 0.5f + 0.5f * glm::dot(out, in)));  // cosine on the facet
        r.face = dielectric_reflectance(toward, s.face->index) * facets *
                 ggx_visibility(out.z, reach, in.z, ggx_reach(in, slopes)) * in.z;
        density += chance * ggx_reflection_pdf(out.z, reach, facets);
    }
    return r;
}

/// Both lobes alone.
inline Lobes evaluate(const Surface& s, const glm::vec3& out, const glm::vec3& in, float body_scale) {
    float density;
    return evaluate(s, out, in, body_scale, 0, density);
}

/// Density per steradian with which `sample` takes `in`, mirror excluded.
inline float pdf(const Surface& s, const glm::vec3& out, const glm::vec3& in, float chance) {
    if (!(out.z > 0 && in.z > 0)) return 0;
    float density = in.z * std::numbers::inv_pi_v<float>;
    if (s.kind == Surface::Body::leaf) density = leaf_lobe(s.face, s.leaf, s.cosine, out, in).density;
    density *= 1 - chance;
    if (s.has_rough_face())
        density += chance * ggx_reflection_pdf(out.z, ggx_reach(out, s.face->slopes),
                                               ggx_density(out + in, s.face->slopes));
    return density;
}

/// A sampled continuation. `mirror`: `lobes.face` is the reflectance itself and `pdf` the chance of having
/// taken it (weight = face / pdf), the body 0. Otherwise weight = (body + face) / pdf with the density of
/// both lobes.
struct Bounce {
    glm::vec3 in{0, 0, 1};
    Lobes lobes;
    float pdf = 0;
    bool mirror = false;
    bool from_face = false;
};

/// Takes a direction; false (path ends, weight 0) when it falls below the surface. `u` in [0, 1)^3: the first
/// chooses the lobe.
inline bool sample(const Surface& s, const glm::vec3& out, float chance, const glm::vec3& u, float body_scale,
                   Bounce& b) {
    if (!(out.z > 0)) return false;
    b.from_face = s.face && u.x < chance;
    b.mirror = b.from_face && !s.has_rough_face();
    if (b.mirror) {
        b.in = {-out.x, -out.y, out.z};
        b.lobes = {Bands(), dielectric_reflectance(out.z, s.face->index)};
        b.pdf = chance;
        return true;
    }
    if (b.from_face) {
        const glm::vec3 half = ggx_visible_normal(out, s.face->slopes, {u.y, u.z});
        b.in = 2 * glm::dot(out, half) * half - out;
    } else if (s.kind == Surface::Body::leaf) {
        b.in = leaf_sample(s.leaf, out, {(u.x - chance) / (1 - chance), u.y, u.z});
    } else {
        b.in = cosine_direction({u.y, u.z});
    }
    if (!(b.in.z > 0)) return false;
    b.lobes = evaluate(s, out, b.in, body_scale, chance, b.pdf);
    return b.pdf > 0;
}

}  // namespace rakelight
