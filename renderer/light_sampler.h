// The light sampler: all lamps of a picture, how important each is at each of eight vertices, points on them,
// and which rays may run into one.
#pragma once

#include <algorithm>
#include <array>
#include <glm/glm.hpp>
#include <numbers>
#include <span>
#include <vector>

#include "materials/maths/circle.h"
#include "materials/maths/transposed.h"
#include "renderer/light_sample.h"

namespace rakelight {

/// All lamps of a picture. Any number of threads may ask it at once; nothing throws.
class LightSampler {
  public:
    /// `lamps` must outlive the sampler.
    explicit LightSampler(std::span<const Emitter> lamps) : lamps_(lamps) {
        bounds_.reserve(lamps.size());
        faces_.reserve(lamps.size());
        for (const Emitter& e : lamps) {
            LightBounds b;
            b.centre_mm = e.centre_mm;
            b.axis = e.axis;
            b.radius_mm = reach_mm(e.shape);
            b.power = e.peak_cd_per_m2 * luminous_mm2(e);
            const bool round = !is_flat(e);
            const bool own = e.optics && !e.optics->intensity.candela.empty();
            const float end = e.beam && !own ? e.beam->cosine_at_end() : 0;
            b.slope = round ? 0 : 1 / (1 - end);
            b.shift = round ? 1 : -end * b.slope;
            b.sun = std::get_if<SunThroughWindow>(&e.shape);
            if (b.sun) b.power = e.peak_cd_per_m2 * static_cast<float>(kSunDisc_sr);  // lux across its beam
            faces_.push_back(flat_face(e.shape));
            if (const auto* const part = std::get_if<SurroundPart>(&e.shape)) {
                surround_ = e.surround.get();
                patch_lamps_.resize(surround_->all->patches().size(), kNoLamp);
                patch_lamps_[part->patch] = static_cast<std::uint32_t>(bounds_.size());
                b.all_round = true;
            }
            bounds_.push_back(b);
        }
    }

    /// As they were given.
    std::span<const Emitter> lamps() const { return lamps_; }

    std::size_t size() const { return lamps_.size(); }

    /// The face of lamp `i`, if it is flat.
    const FlatFace& face(std::size_t i) const { return faces_[i]; }

    /// What lamp `i` would give eight places whose surfaces face `normal`, unshadowed, up to one factor:
    /// exact zero only where no part of the lamp can be seen.
    Floats importance(std::size_t i, const Vec3s& at_mm, const Vec3s& normal) const {
        const LightBounds& b = bounds_[i];
        if (b.sun) return b.power * sun_cosine(*b.sun, lamps_[i], at_mm, normal);
        const Vec3s to{b.centre_mm.x - at_mm.x, b.centre_mm.y - at_mm.y, b.centre_mm.z - at_mm.z};
        const Floats d2 = max(dot(to, to), broadcast(b.radius_mm * b.radius_mm + 1e-6f));
        const Floats inverse = 1 / sqrt(d2);
        const Floats reach = b.radius_mm * inverse;  // part of a face may show while its centre does not
        const Floats facing = dot(to, normal) * inverse + reach;
        const Floats cosine = reach - (to.x * b.axis.x + to.y * b.axis.y + to.z * b.axis.z) * inverse;
        const Floats fade = min(cosine * b.slope + b.shift, broadcast(1));
        return b.power * max(facing, Floats{}) * max(fade, Floats{}) * (inverse * inverse);
    }

    /// Lanes whose rays enter the ball round some lamp: only they can meet one; what leaves the scene may
    /// also meet a picture all round.
    Ints may_hit(const Vec3s& from_mm, const Vec3s& direction) const {
        Ints near{};
        for (const LightBounds& b : bounds_) {
            if (b.all_round) continue;
            const Vec3s to{b.centre_mm.x - from_mm.x, b.centre_mm.y - from_mm.y, b.centre_mm.z - from_mm.z};
            const Vec3s aside = to - direction * dot(to, direction);
            near |= dot(aside, aside) < b.radius_mm * b.radius_mm * 1.001f;
        }
        return near;
    }

    /// Nearest luminous face along a ray, nearer than `most_mm`; lamp = kNoLamp when there is none.
    LampHit intersect(const glm::vec3& from_mm, const glm::vec3& direction, float most_mm) const {
        LampHit nearest{.distance_mm = most_mm, .cd_per_m2 = 0, .lamp = kNoLamp};
        for (std::size_t i = 0; i < lamps_.size(); ++i)
            if (!bounds_[i].all_round)
                rakelight::intersect(lamps_[i], static_cast<std::uint32_t>(i), from_mm, direction, nearest);
        if (surround_ && nearest.lamp == kNoLamp && most_mm > kSurroundFar_mm)
            meet_surround(direction, nearest);
        return nearest;
    }

  private:
    // Bounding sphere and emission profile of a lamp ("light bounds"): how its face fades off its axis is
    // told as a straight line in the cosine, even for what shines all round, the cosine itself for a matte
    // panel, from 1 to 0 at the end of a spot's beam.
    struct LightBounds {
        glm::vec3 centre_mm{}, axis{};
        float radius_mm = 0;
        float power = 0;
        float slope = 0, shift = 0;
        const SunThroughWindow* sun = nullptr;
        bool all_round = false;  // a part of a picture all round
    };

    void meet_surround(const glm::vec3& direction, LampHit& nearest) const {
        const std::uint32_t pixel = surround_->pixel(direction);
        const std::uint32_t patch = surround_->all->patch_of(pixel);
        if (patch >= patch_lamps_.size() || patch_lamps_[patch] == kNoLamp) return;
        nearest = {kSurroundFar_mm, surround_->cd_per_m2(pixel), patch_lamps_[patch]};
    }

    std::span<const Emitter> lamps_;
    std::vector<LightBounds> bounds_;
    std::vector<FlatFace> faces_;
    const SurroundLight* surround_ = nullptr;
    std::vector<std::uint32_t> patch_lamps_;  // lamp of each patch of `surround_`
};

/// Eight of LiSample.
struct LiSamples {
    Vec3s direction;
    Floats distance_mm;
    Floats cd_per_m2;
    Floats pdf;
};

/// `plain_luminance` of eight flat lamps towards their cosines.
inline Floats plain_luminances(const LaneArray<const Emitter*>& lamps, const Floats& cosine) {
    static const BeamTable kEven;
    LaneArray<const BeamTable*> beams;
    for (std::size_t k = 0; k < kLanes; ++k) beams[k] = lamps[k]->beam ? lamps[k]->beam.get() : &kEven;
    const Floats peak = gather([&](std::size_t k) { return lamps[k]->peak_cd_per_m2; });
    const Floats steps = gather([&](std::size_t k) { return beams[k]->steps_per_half_sine; });
    const Ints front = cosine > 0, fading = steps > 0;
    if (!any(fading)) return front ? peak : Floats{};
    const Floats place = sqrt(max(Floats{}, 0.5f * (1 - cosine))) * steps;
    const Ints i = index_within(place, 0, BeamTable::kSteps);
    const auto [below, above] =
        columns_of_2([&](std::size_t k) { return &beams[k]->intensity[static_cast<std::size_t>(i[k])]; });
    const Floats within = below + (place - __builtin_convertvector(i, Floats)) * (above - below);
    const Floats intensity = place >= float{BeamTable::kSteps} ? Floats{} : within;
    const Floats fallen = peak * intensity / max(cosine, broadcast(0.05f));
    return front ? (fading ? fallen : peak) : Floats{};
}

/// `sample_li` for eight places, each of its own lamp: flat ones by lanes, others one at a time.
inline LiSamples sample_li(const LightSampler& lights, const Ints& chosen, const Vec3s& from_mm,
                           const Floats& u, const Floats& v) {
    LaneArray<const Emitter*> lamps;
    LaneArray<const FlatFace*> faces;
    for (std::size_t k = 0; k < kLanes; ++k) {
        const auto lamp = static_cast<std::size_t>(chosen[k]);
        lamps[k] = &lights.lamps()[lamp];
        faces[k] = &lights.face(lamp);
    }
    // Pose: centre, axis, u, v.
    const LaneArray<Floats> pose = columns_of_8([&](std::size_t k) { return &lamps[k]->centre_mm.x; });
    const std::array<Floats, 4> rest = columns_of_4([&](std::size_t k) { return &lamps[k]->u.z; });
    const Vec3s centre{pose[0], pose[1], pose[2]}, axis{pose[3], pose[4], pose[5]},
        along{pose[6], pose[7], rest[0]}, across{rest[1], rest[2], rest[3]};
    const Ints disc = gather([&](std::size_t k) { return faces[k]->is_round ? 1.0f : 0.0f; }) > 0;
    const CirclePoint<Floats> turn = point_on_circle(v);
    const Floats radius = sqrt(u);
    const auto [half_width, half_height] = columns_of_2([&](std::size_t k) { return &faces[k]->half_mm.x; });
    const Floats x = (disc ? radius * turn.x : 2 * u - 1) * half_width;
    const Floats y = (disc ? radius * turn.y : 2 * v - 1) * half_height;
    const Vec3s to = centre + along * x + across * y - from_mm;
    const Floats d2 = dot(to, to);
    LiSamples s;
    s.distance_mm = sqrt(d2);
    s.direction = to * (1 / s.distance_mm);
    const Floats cosine = -dot(s.direction, axis);
    s.cd_per_m2 = plain_luminances(lamps, cosine);
    for (std::size_t k = 0; k < kLanes; ++k) {
        const Emitter& e = *lamps[k];
        if (!faces[k]->is_flat || (!e.optics && !e.sky)) continue;
        const glm::vec3 out(-s.direction.x[k], -s.direction.y[k], -s.direction.z[k]);
        s.cd_per_m2[k] = luminance_cd_per_m2(e, out, {x[k], y[k]});
    }
    const Floats face_mm2 = half_width * half_height * (disc ? std::numbers::pi_v<float> : 4.0f);
    s.pdf = cosine > 0 ? d2 / (cosine * face_mm2) : 0.0f;
    for (std::size_t k = 0; k < kLanes; ++k) {
        if (faces[k]->is_flat) continue;
        const LiSample one = sample_li(*lamps[k], {from_mm.x[k], from_mm.y[k], from_mm.z[k]}, {u[k], v[k]});
        s.direction.x[k] = one.direction.x;
        s.direction.y[k] = one.direction.y;
        s.direction.z[k] = one.direction.z;
        s.distance_mm[k] = one.distance_mm;
        s.cd_per_m2[k] = one.cd_per_m2;
        s.pdf[k] = one.pdf;
    }
    return s;
}

}  // namespace rakelight
