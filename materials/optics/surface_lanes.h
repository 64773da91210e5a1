// The surfaces of eight vertices at once: what surface.h says of one, as vectors, with all that depends on
// `out` alone worked out once for the lamp that is asked and the direction that is followed. No lane
// branches: bare stuff has a face of index 1 that mirrors nothing, and every body is Oren-Nayar's, most of
// slope 0.
#pragma once

#include <numbers>

#include "materials/optics/surface.h"

namespace rakelight {

/// How a body's bands follow from its tables towards one `in`: see SurfaceLanes::body_of.
struct BodyLanes {
    Floats even;   ///< factor on Surface::even, of a layer on g(out) g(in), or of leaf on its lobe's colour
    Floats among;  ///< factor on Surface::among
    Ints node;     ///< layer: node of `in`; leaf: of the facet
    Floats part;   ///< and how far to the next, 0..1
};

/// Both lobes, and the density with which `sample` takes this direction.
struct LobeLanes {
    BodyLanes body;
    Floats face;
    Floats density;
};

/// The face of bare stuff: it mirrors nothing.
inline const FaceTable kNoFace{};

class SurfaceLanes {
  public:
    /// `out`: unit, z > 0. `body_scale`: grain. `seen_by_eye`: 1 or 0, as in face_chance.
    SurfaceLanes(const LaneArray<const Surface*>& surfaces, const Vec3s& out, const Floats& body_scale,
                 const Floats& seen_by_eye)
        : out_(out), surfaces_(surfaces) {
        for (std::size_t k = 0; k < kLanes; ++k) {
            faces_[k] = surfaces[k]->face ? surfaces[k]->face : &kNoFace;
            layered_ = layered_ || surfaces[k]->kind == Surface::Body::layered;
            gilded_ = gilded_ || surfaces[k]->kind == Surface::Body::leaf;
            drawn_out_ = drawn_out_ || faces_[k]->drawn_out();
        }
        slopes_.alpha = gather([&](std::size_t k) { return faces_[k]->slopes.alpha; });
        slopes_.along = gather([&](std::size_t k) { return faces_[k]->slopes.along; });
        slopes_.across = gather([&](std::size_t k) { return faces_[k]->slopes.across; });
        reach_ = ggx_reach(out, slopes_);
        index_ = gather([&](std::size_t k) { return faces_[k]->index; });
        matte_.shape = gather([&](std::size_t k) { return surfaces[k]->matte.shape; });
        matte_.plain = gather([&](std::size_t k) { return surfaces[k]->matte.plain; });
        matte_.mean_albedo = gather([&](std::size_t k) { return surfaces[k]->matte.mean_albedo; });
        const Floats mirrored = face_albedo(out);
        entering_ =
            (1 - mirrored) * body_scale * gather([&](std::size_t k) { return surfaces[k]->body_norm; });
        body_scale_ = body_scale;
        out_node_ = node_of(out.z, out_part_);
        choose_chance(mirrored, seen_by_eye);
    }

    /// GGX roughness of the faces.
    const Floats& alpha() const { return slopes_.alpha; }

    /// As rakelight::evaluate. Lanes whose `in` is not above the surface hold nothing of use.
    LobeLanes evaluate(const Vec3s& in) const {
        LobeLanes r;
        const Floats z = max(in.z, broadcast(1e-6f));
        const Vec3s above{in.x, in.y, z};
        const Floats through = entering_ * (1 - face_albedo(above)) * z;
        r.body.even = through * matte_single(matte_, out_, in);
        r.body.among = through * matte_multiple(matte_, out_.z, z);
        if (layered_) r.body.node = node_of(z, r.body.part);
        const Floats facets = ggx_density(out_ + in, slopes_);
        const Floats toward = sqrt(min(max(0.5f + 0.5f * dot(out_, in), Floats{}), broadcast(1)));
        const Ints rough = slopes_.alpha > 0;
        r.face = rough ? dielectric_reflectance(toward, index_) * facets *
                             ggx_visibility(out_.z, reach_, z, ggx_reach(above, slopes_)) * z
                       : Floats{};
        r.density = (1 - chance_) * z * std::numbers::inv_pi_v<float> +
                    (rough ? chance_ * ggx_reflection_pdf(out_.z, reach_, facets) : Floats{});
        if (gilded_) gild(in, z, r);
        return r;
    }

    /// The body's bands of one lane, per steradian and times the cosine of `in`.
    Bands body(std::size_t lane, const BodyLanes& in) const { return body_of(*surfaces_[lane], lane, in); }

    /// The same were another surface there, alike in all but its bands.
    Bands body_of(const Surface& s, std::size_t lane, const BodyLanes& in) const {
        Bands r;
        if (s.kind == Surface::Body::leaf) {
            const Bands* const colour = &s.g[static_cast<std::size_t>(in.node[lane])];
            const float metal = in.even[lane], among = in.among[lane], part = in.part[lane];
            for (int i = 0; i < kBandCount; ++i)
                r[i] = metal * (colour[0][i] + part * (colour[1][i] - colour[0][i])) + s.among[i] * among;
            return r;
        }
        if (s.kind != Surface::Body::layered) {
            const float even = in.even[lane], among = in.among[lane];
            for (int i = 0; i < kBandCount; ++i) r[i] = s.even[i] * even + s.among[i] * among;
            return r;
        }
        const float through = in.even[lane], a = out_part_[lane], b = in.part[lane];
        const Bands* const out_g = &s.g[static_cast<std::size_t>(out_node_[lane])];
        const Bands* const in_g = &s.g[static_cast<std::size_t>(in.node[lane])];
        for (int i = 0; i < kBandCount; ++i)
            r[i] = through * (out_g[0][i] + a * (out_g[1][i] - out_g[0][i])) *
                   (in_g[0][i] + b * (in_g[1][i] - in_g[0][i]));
        return r;
    }

    /// Directions to follow, as rakelight::sample.
    struct Taken {
        Vec3s in;
        Ints from_face;
        Ints mirror;  ///< of a perfect mirror
    };
    Taken sample(const Floats& lobe, const Floats& u, const Floats& v) const {
        const Ints face = lobe < chance_;
        Taken t{cosine_direction(u, v), face, face & (slopes_.alpha == 0)};
        if (any(face)) {
            const Vec3s level{Floats{}, Floats{}, broadcast(1)};
            const BasicSlopes<Floats> slopes{max(slopes_.alpha, broadcast(kMirrorAlpha)), slopes_.along,
                                             slopes_.across};
            const Vec3s half = ggx_visible_normal(out_, slopes, u, v);
            const Vec3s facet = select(t.mirror, level, half);
            t.in = select(face, facet * (2 * dot(out_, facet)) - out_, t.in);
        }
        if (gilded_) follow_leaf(lobe, u, v, t);
        return t;
    }

    /// What a perfect mirror sends on.
    Floats mirror_weight() const { return dielectric_reflectance(out_.z, index_) / chance_; }

  private:
    bool is_leaf(std::size_t lane) const { return surfaces_[lane]->kind == Surface::Body::leaf; }
    glm::vec3 out_of(std::size_t lane) const { return {out_.x[lane], out_.y[lane], out_.z[lane]}; }

    // Leaf is rare enough to be worked out lane by lane.
    void gild(const Vec3s& in, const Floats& z, LobeLanes& r) const {
        if (!layered_) r.body.node = Ints{}, r.body.part = Floats{};
        for (std::size_t k = 0; k < kLanes; ++k) {
            if (!is_leaf(k)) continue;
            const Surface& s = *surfaces_[k];
            const LeafLobe lobe = leaf_lobe(s.face, s.leaf, s.cosine, out_of(k), {in.x[k], in.y[k], z[k]});
            r.body.even[k] = body_scale_[k] * lobe.metal;
            r.body.among[k] = body_scale_[k] * s.body_norm * lobe.even;
            r.body.node[k] = static_cast<std::int32_t>(lobe.spot.node);
            r.body.part[k] = lobe.spot.part;
            r.density[k] += (1 - chance_[k]) * (lobe.density - z[k] * std::numbers::inv_pi_v<float>);
        }
    }

    void follow_leaf(const Floats& lobe, const Floats& u, const Floats& v, Taken& t) const {
        for (std::size_t k = 0; k < kLanes; ++k) {
            if (!is_leaf(k) || t.from_face[k]) continue;
            const float rest = (lobe[k] - chance_[k]) / (1 - chance_[k]);
            const glm::vec3 in = leaf_sample(surfaces_[k]->leaf, out_of(k), {rest, u[k], v[k]});
            t.in.x[k] = in.x, t.in.y[k] = in.y, t.in.z[k] = in.z;
        }
    }

    Floats face_albedo(const Vec3s& v) const {
        const Floats x = sqrt(v.z) * FaceTable::kIntervals;
        const Ints i = index_within(x, 0, FaceTable::kIntervals - 1);
        const Floats part = x - __builtin_convertvector(i, Floats);
        const auto read = [&](auto&& nodes) {
            const Floats below =
                gather([&](std::size_t k) { return nodes(k)[static_cast<std::size_t>(i[k])]; });
            const Floats above =
                gather([&](std::size_t k) { return nodes(k)[static_cast<std::size_t>(i[k]) + 1]; });
            return below + part * (above - below);
        };
        using Nodes = FaceTable::Nodes;
        if (!drawn_out_) return read([&](std::size_t k) -> const Nodes& { return faces_[k]->nodes; });
        const Floats w =
            FaceTable::kRound * FaceTable::way_round(v.x * v.x, v.y * v.y, slopes_.along, slopes_.across);
        const Ints j = index_within(w, 0, FaceTable::kRound - 1);
        const auto ring = [&](std::size_t k, std::size_t next) -> const Nodes& {
            return faces_[k]->drawn_out() ? faces_[k]->round[static_cast<std::size_t>(j[k]) + next]
                                          : faces_[k]->nodes;
        };
        const Floats below = read([&](std::size_t k) -> const Nodes& { return ring(k, 0); });
        const Floats above = read([&](std::size_t k) -> const Nodes& { return ring(k, 1); });
        return below + (w - __builtin_convertvector(j, Floats)) * (above - below);
    }

    Ints node_of(const Floats& z, Floats& part) const {
        if (!layered_) return Ints{};
        const auto cosine = [&](std::size_t k) -> const LayerCosine& { return surfaces_[k]->cosine; };
        const Floats inside = sqrt(
            max(1 - (1 - z * z) * gather([&](std::size_t k) { return cosine(k).inverse_index2; }), Floats{}));
        const Floats x = (inside - gather([&](std::size_t k) { return cosine(k).first; })) *
                         gather([&](std::size_t k) { return cosine(k).per_cosine; });
        const Ints i = index_within(x, 0, kLayerNodes - 2);
        part = max(x, Floats{}) - __builtin_convertvector(i, Floats);
        return i;
    }

    // As face_chance.
    void choose_chance(const Floats& mirrored, const Floats& seen_by_eye) {
        const Floats scattered =
            (1 - mirrored) * gather([&](std::size_t k) { return surfaces_[k]->mean_albedo; });
        const Floats all = mirrored + scattered;
        const Floats least = (seen_by_eye > 0) & (slopes_.alpha < 0.5f) ? 0.4f : 0.02f;
        chance_ = min(max(mirrored / all, least), broadcast(0.95f));
        chance_ = scattered > 0 ? chance_ : 1.0f;
        chance_ = index_ > 1 ? chance_ : 0.0f;
    }

    Vec3s out_;
    LaneArray<const Surface*> surfaces_;
    LaneArray<const FaceTable*> faces_;
    bool layered_ = false;
    bool gilded_ = false;
    bool drawn_out_ = false;  // any of the faces
    BasicSlopes<Floats> slopes_;
    Floats reach_, index_, entering_, chance_, body_scale_;
    BasicMatte<Floats> matte_;
    Ints out_node_{};
    Floats out_part_{};
};

}  // namespace rakelight
