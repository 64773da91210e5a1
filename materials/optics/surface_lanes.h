// The BSDFs of eight vertices at once: evaluation, sampling and density of what surface.h describes, as SIMD
// vectors, with all that depends on `out` alone worked out once for the lamp that is sampled and the
// direction that is followed. No lane branches: bare material has an interface of index 1 that mirrors
// nothing, and every base is Oren-Nayar's, most of slope 0.
#pragma once

#include <numbers>

#include "materials/maths/circle.h"
#include "materials/maths/transposed.h"
#include "materials/optics/fresnel.h"
#include "materials/optics/ggx.h"
#include "materials/optics/surface.h"

namespace rakelight {

/// Between which of the places of Surface::side, and how far from the first to the next, 0..1.
struct SidePlaces {
    Ints place;
    Floats part;
};

/// How a base's bands follow from its tables towards one `in`: see SurfaceLanes::base_of.
struct BaseLanes {
    Floats even;   ///< factor on Surface::even, of a layer on g(out) g(in), or of leaf on its lobe's colour
    Floats among;  ///< factor on Surface::among
    Ints node;     ///< layer: node of `in`; leaf: of the facet
    Floats part;   ///< and how far to the next, 0..1
    SidePlaces place;  ///< of a piece with sides: where the ray of `in` meets the bed
};

/// Both lobes, BRDF times cosine of `in`, per steradian: the base's part, and the interface's, which has no
/// colour (0 of a perfect mirror, which only `sample` meets); and the density per steradian with which
/// `sample` takes this direction, mirror excluded.
struct LobeLanes {
    BaseLanes base;
    Floats interface;
    Floats density;
};

/// The interface of bare material: it mirrors nothing.
inline const InterfaceTable kNoInterface{};

/// Faces whose normals lean by more than eight degrees from the piece's are its rim, or a chip, little by
/// little: waves and tilts of a face are less. The sine of that angle.
inline constexpr float kLeastLean = 0.14f;

class SurfaceLanes {
  public:
    /// `out`: unit, z > 0. `base_scale` multiplies the base (grain), 0..Surface::max_base_scale.
    /// `seen_by_eye`, 1 or 0: a glossy interface is then sampled with a probability of at least 0.4, so that
    /// glints converge before the duller base does. `edge_mm`: how far from the edge of the piece; below 0 =
    /// as its whole face in the mean. `face`: upright on the piece's face, from which its rims and chips lean
    /// away. `widening`: of interfaces whose facets lie the same every way.
    SurfaceLanes(const LaneArray<const Surface*>& surfaces, const Vec3s& out, const Floats& base_scale,
                 const Floats& seen_by_eye, const Floats& edge_mm = broadcast(-1),
                 const Vec3s& face = {Floats{}, Floats{}, broadcast(1)}, const Widening& widening = {})
        : out_(out), edge_mm_(edge_mm), face_(face), surfaces_(surfaces) {
        for (std::size_t k = 0; k < kLanes; ++k) {
            interfaces_[k] = surfaces[k]->interface ? surfaces[k]->interface : &kNoInterface;
            layered_ = layered_ || surfaces[k]->kind == Surface::Base::layered;
            gilded_ = gilded_ || surfaces[k]->kind == Surface::Base::leaf;
            anisotropic_ = anisotropic_ || interfaces_[k]->anisotropic();
        }
        const auto optics = columns_of_4([&](std::size_t k) { return &interfaces_[k]->index; });
        index_ = optics[0];
        slopes_ = {optics[1], optics[2], optics[3]};
        own_ = slopes_;
        own_reach_ = ggx_reach(out, own_);
        widen(slopes_, widening);
        reach_ = ggx_reach(out, slopes_);
        const LaneArray<Floats> numbers = columns_of_8([&](std::size_t k) { return surfaces[k]->numbers(); });
        matte_ = {numbers[2], numbers[3], numbers[4]};
        cosine_ = {numbers[5], numbers[6], numbers[7]};
        const Floats mirrored = interface_albedo(out);
        transmittance_ = (1 - mirrored) * base_scale * numbers[0];
        base_scale_ = base_scale;
        sided_ = layered_ && any(edge_mm >= 0);
        rimmed_ = sided_ && any((edge_mm >= 0) & (face.z < 1 - kLeastLean * kLeastLean / 2));
        out_node_ = node_of(out, out_part_, out_place_);
        choose_probability(mirrored, seen_by_eye);
    }

    /// The same surface, which must outlive this, seen from the same direction, in every lane.
    SurfaceLanes(const Surface& surface, const glm::vec3& out, float base_scale = 1, bool seen_by_eye = false)
        : SurfaceLanes(in_every_lane(surface), broadcast3(out), broadcast(base_scale),
                       broadcast(seen_by_eye ? 1.0f : 0.0f)) {}

    /// GGX roughness of the interfaces, without widening.
    const Floats& alpha() const { return own_.alpha; }

    /// Probability with which `sample` takes the interface.
    const Floats& interface_probability() const { return interface_probability_; }

    /// Both lobes towards `in`. Lanes whose `in` is not above the surface hold nothing of use.
    LobeLanes evaluate(const Vec3s& in) const {
        LobeLanes r;
        const Floats z = max(in.z, broadcast(1e-6f));
        const Vec3s above{in.x, in.y, z};
        const Floats through = transmittance_ * (1 - interface_albedo(above)) * z;
        r.base.even = through * matte_single(matte_, out_, in);
        r.base.among = through * matte_multiple(matte_, out_.z, z);
        if (layered_) r.base.node = node_of(above, r.base.part, r.base.place);
        const Floats facets = ggx_density(out_ + in, slopes_);
        const Floats toward = sqrt(min(max(0.5f + 0.5f * dot(out_, in), Floats{}), broadcast(1)));
        const Floats mirrored = slopes_.alpha > 0 ? ggx_reflection_pdf(out_.z, reach_, facets) : Floats{};
        r.interface = dielectric_reflectance(toward, index_) * mirrored *
                      ggx_leaving(out_.z, own_reach_, z, ggx_reach(above, own_));
        r.density = (1 - interface_probability_) * z * std::numbers::inv_pi_v<float> +
                    interface_probability_ * mirrored;
        if (gilded_) gild(in, z, r);
        return r;
    }

    /// The base's bands of one lane, per steradian and times the cosine of `in`.
    SampledSpectrum base(std::size_t lane, const BaseLanes& in) const {
        return base_of(*surfaces_[lane], lane, in);
    }

    /// The same were another surface there, alike in all but its bands.
    SampledSpectrum base_of(const Surface& s, std::size_t lane, const BaseLanes& in) const {
        const float even = in.even[lane], among = in.among[lane], b = in.part[lane];
        if (s.kind == Surface::Base::leaf) {
            const SampledSpectrum* const colour = &s.g[static_cast<std::size_t>(in.node[lane])];
            return even * lerp(colour[0], colour[1], b) + s.among * among;
        }
        if (s.kind != Surface::Base::layered) return s.even * even + s.among * among;
        if (edge_mm_[lane] >= 0) return piece_of(s, lane, in);
        const SampledSpectrum* const out_g = &s.g[static_cast<std::size_t>(out_node_[lane])];
        const SampledSpectrum* const in_g = &s.g[static_cast<std::size_t>(in.node[lane])];
        return even * lerp(out_g[0], out_g[1], out_part_[lane]) * lerp(in_g[0], in_g[1], b);
    }

    /// Directions to follow.
    struct Taken {
        Vec3s in;  ///< may lie below the surface, where a path ends
        Ints from_interface;
        Ints mirror;  ///< of a perfect mirror
    };
    /// Takes a direction in each lane. Numbers in [0, 1): `lobe` chooses between interface and base.
    Taken sample(const Floats& lobe, const Floats& u, const Floats& v) const {
        const Ints interface = lobe < interface_probability_;
        Taken t{cosine_direction(u, v), interface, interface & (slopes_.alpha == 0)};
        if (any(interface)) {
            const Vec3s level{Floats{}, Floats{}, broadcast(1)};
            const BasicSlopes<Floats> slopes{max(slopes_.alpha, broadcast(kMirrorAlpha)), slopes_.along,
                                             slopes_.across};
            const Vec3s half = ggx_visible_normal(out_, slopes, u, v);
            const Vec3s facet = select(t.mirror, level, half);
            t.in = select(interface, facet * (2 * dot(out_, facet)) - out_, t.in);
        }
        if (gilded_) follow_leaf(lobe, u, v, t);
        return t;
    }

    /// What a perfect mirror sends on.
    Floats mirror_weight() const { return dielectric_reflectance(out_.z, index_) / interface_probability_; }

  private:
    static LaneArray<const Surface*> in_every_lane(const Surface& surface) {
        LaneArray<const Surface*> r;
        r.fill(&surface);
        return r;
    }

    // A piece at a place of its face, or of its rim, where the bed is met at another place by either ray.
    [[gnu::always_inline]] SampledSpectrum piece_of(const Surface& s, std::size_t lane,
                                                    const BaseLanes& in) const {
        const auto node = [&](std::int32_t n) { return n < 0 ? &s.flat : &s.g[static_cast<std::size_t>(n)]; };
        const float through = in.even[lane], a = out_part_[lane], b = in.part[lane],
                    c = out_place_.part[lane];
        const SampledSpectrum &out_0 = *node(out_node_[lane]), &out_1 = *node(out_node_[lane] + 1);
        const SampledSpectrum &in_0 = *node(in.node[lane]), &in_1 = *node(in.node[lane] + 1);
        const SampledSpectrum* const out_side = &s.side[static_cast<std::size_t>(out_place_.place[lane])];
        SampledSpectrum r =
            through * lerp(out_0, out_1, a) * lerp(in_0, in_1, b) * lerp(out_side[0], out_side[1], c);
        if (rimmed_) bring_in_way(s, lane, in, r);
        return r;
    }

    // Of a rim, from the place where the ray of `out` meets the bed to the geometric mean of both places, so
    // that the way back is the way there.
    [[gnu::noinline]] void bring_in_way(const Surface& s, std::size_t lane, const BaseLanes& in,
                                        SampledSpectrum& r) const {
        const float c = out_place_.part[lane], d = in.place.part[lane];
        if (out_place_.place[lane] == in.place.place[lane] && c == d) return;
        const SampledSpectrum* const out_side = &s.side[static_cast<std::size_t>(out_place_.place[lane])];
        const SampledSpectrum* const in_side = &s.side[static_cast<std::size_t>(in.place.place[lane])];
        const SampledSpectrum out_way = lerp(out_side[0], out_side[1], c),
                              in_way = lerp(in_side[0], in_side[1], d);
        r *= by_eights(
            [&](std::size_t i) { return sqrt(in_way.eight(i) / max(out_way.eight(i), broadcast(1e-9f))); });
    }

    bool is_leaf(std::size_t lane) const { return surfaces_[lane]->kind == Surface::Base::leaf; }
    glm::vec3 out_of(std::size_t lane) const { return {out_.x[lane], out_.y[lane], out_.z[lane]}; }

    // Leaf is rare enough to be worked out lane by lane.
    void gild(const Vec3s& in, const Floats& z, LobeLanes& r) const {
        if (!layered_) r.base.node = Ints{}, r.base.part = Floats{};
        for (std::size_t k = 0; k < kLanes; ++k) {
            if (!is_leaf(k)) continue;
            const Surface& s = *surfaces_[k];
            const LeafLobe lobe =
                leaf_lobe(s.interface, s.leaf, s.cosine, out_of(k), {in.x[k], in.y[k], z[k]});
            r.base.even[k] = base_scale_[k] * lobe.metal;
            r.base.among[k] = base_scale_[k] * s.base_norm * lobe.even;
            r.base.node[k] = static_cast<std::int32_t>(lobe.spot.node);
            r.base.part[k] = lobe.spot.part;
            r.density[k] +=
                (1 - interface_probability_[k]) * (lobe.density - z[k] * std::numbers::inv_pi_v<float>);
        }
    }

    void follow_leaf(const Floats& lobe, const Floats& u, const Floats& v, Taken& t) const {
        for (std::size_t k = 0; k < kLanes; ++k) {
            if (!is_leaf(k) || t.from_interface[k]) continue;
            const float rest = (lobe[k] - interface_probability_[k]) / (1 - interface_probability_[k]);
            const glm::vec3 in = leaf_sample(surfaces_[k]->leaf, out_of(k), {rest, u[k], v[k]});
            t.in.x[k] = in.x, t.in.y[k] = in.y, t.in.z[k] = in.z;
        }
    }

    Floats interface_albedo(const Vec3s& v) const {
        const Floats x = sqrt(v.z) * InterfaceTable::kIntervals;
        const Ints i = index_within(x, 0, InterfaceTable::kIntervals - 1);
        const Floats part = x - __builtin_convertvector(i, Floats);
        const auto read = [&](auto&& nodes) {
            const auto [below, above] =
                columns_of_2([&](std::size_t k) { return &nodes(k)[static_cast<std::size_t>(i[k])]; });
            return below + part * (above - below);
        };
        using Nodes = InterfaceTable::Nodes;
        if (!anisotropic_) return read([&](std::size_t k) -> const Nodes& { return interfaces_[k]->nodes; });
        const Floats w = InterfaceTable::kRound *
                         InterfaceTable::way_round(v.x * v.x, v.y * v.y, slopes_.along, slopes_.across);
        const Ints j = index_within(w, 0, InterfaceTable::kRound - 1);
        const auto ring = [&](std::size_t k, std::size_t next) -> const Nodes& {
            return interfaces_[k]->anisotropic()
                       ? interfaces_[k]->round[static_cast<std::size_t>(j[k]) + next]
                       : interfaces_[k]->nodes;
        };
        const Floats below = read([&](std::size_t k) -> const Nodes& { return ring(k, 0); });
        const Floats above = read([&](std::size_t k) -> const Nodes& { return ring(k, 1); });
        return below + (w - __builtin_convertvector(j, Floats)) * (above - below);
    }

    // Where the refracted ray of a direction falls among the nodes, and where it meets the bed.
    Ints node_of(const Vec3s& v, Floats& part, SidePlaces& place) const {
        if (!layered_) return Ints{};
        const Floats &inverse2 = cosine_.inverse_index2, &first = cosine_.first;
        Floats inside = sqrt(max(1 - (1 - v.z * v.z) * inverse2, Floats{}));
        Floats edge_mm = edge_mm_;
        if (rimmed_) inside = under_rim(v, inverse2, inside, edge_mm);
        const Floats x = (inside - first) * cosine_.per_cosine;
        Ints i = index_within(x, 0, kLayerNodes - 2);
        part = max(x, Floats{}) - __builtin_convertvector(i, Floats);
        if (sided_) {
            const Floats per_mm = gather([&](std::size_t k) { return surfaces_[k]->side_per_mm; });
            const Floats y = (kSidePlaces - 1) * sqrt(min(max(edge_mm * per_mm, Floats{}), broadcast(1)));
            place.place = index_within(y, 0, kSidePlaces - 2);
            place.part = y - __builtin_convertvector(place.place, Floats);
        }
        if (rimmed_) {
            const Ints level = (edge_mm_ >= 0) & (inside < first);
            part = level ? max(inside / max(first, broadcast(1e-3f)), Floats{}) : part;
            i = level ? Ints{} - 1 : i;
        }
        return i;
    }

    // A face that leans away from the piece's own, at a rim or in a chip, bends rays towards the piece's
    // middle: by Snell's law the way through the glass is the longer, and meets the bed the farther from the
    // edge, the more it leans. `inside`: cosine of the refracted ray to the normal. \return that to the
    // piece's face
    Floats under_rim(const Vec3s& v, const Floats& inverse2, const Floats& inside, Floats& edge_mm) const {
        const Floats down = (v.x * face_.x + v.y * face_.y) * sqrt(inverse2) + inside * face_.z;
        const Floats steep = max(down, -down);
        const Floats lean = sqrt(max(1 - face_.z * face_.z, Floats{}));
        const Floats inward = (inside - face_.z * down) / max(lean, broadcast(1e-3f));
        constexpr float kLeast = 0.25f;  // a level ray meets the far side before the bed
        const Floats thick = gather([&](std::size_t k) { return surfaces_[k]->thickness_mm; });
        const Floats rim =
            edge_mm_ >= 0 ? min(max(4 * (lean - kLeastLean), Floats{}), broadcast(1)) : Floats{};
        edge_mm = edge_mm_ + rim * thick * inward / max(steep, broadcast(kLeast));
        edge_mm = edge_mm_ >= 0 ? max(edge_mm, Floats{}) : edge_mm_;
        return inside + rim * (steep - inside);
    }

    void choose_probability(const Floats& mirrored, const Floats& seen_by_eye) {
        const Floats scattered =
            (1 - mirrored) * gather([&](std::size_t k) { return surfaces_[k]->mean_albedo; });
        const Floats all = mirrored + scattered;
        const Floats least = ((seen_by_eye > 0) & (slopes_.alpha < 0.5f)) ? 0.4f : 0.02f;
        interface_probability_ = min(max(mirrored / all, least), broadcast(0.95f));
        interface_probability_ = scattered > 0 ? interface_probability_ : 1.0f;
        interface_probability_ = index_ > 1 ? interface_probability_ : 0.0f;
    }

    Vec3s out_;
    Floats edge_mm_;
    SidePlaces out_place_{};
    Vec3s face_;
    bool sided_ = false;   // any lane lies on a piece with sides
    bool rimmed_ = false;  // any lane lies on a rim or in a chip
    LaneArray<const Surface*> surfaces_;
    LaneArray<const InterfaceTable*> interfaces_;
    bool layered_ = false;
    bool gilded_ = false;
    bool anisotropic_ = false;          // any of the interfaces
    BasicSlopes<Floats> own_, slopes_;  // without widening, and with it
    Floats reach_, own_reach_, index_, transmittance_, interface_probability_, base_scale_;
    BasicMatte<Floats> matte_;
    struct {
        Floats inverse_index2, first, per_cosine;
    } cosine_;  // as LayerCosine
    Ints out_node_{};
    Floats out_part_{};
};

}  // namespace rakelight
