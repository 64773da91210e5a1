#include "scene/forms/relief.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "materials/maths/hash.h"
#include "materials/maths/noise.h"

namespace rakelight {

namespace {

// Standard deviation along one axis of the slope of gradient noise, per unit of its argument; taken once by
// sampling a thousand cells of it.
constexpr float kNoiseSlope = 0.575f;

// Tumbling takes off no more than this, however large the piece: common practice, no published source.
constexpr float kMostWear_mm = 2;

Relief scaled(const NoiseSample& n, float height_mm, float wave_mm) {
    return {height_mm * n.value, height_mm * (2 / wave_mm) * glm::vec2(n.gradient)};
}

void heap(Relief& sum, const Relief& r) {
    sum.height_mm += r.height_mm;
    sum.slope += r.slope;
}

// Flat treads with short steep risers, as bedding splits.
Relief terraced(const Relief& r, float step_mm) {
    const float t = r.height_mm / step_mm;
    const float tread = std::floor(t);
    const float u = std::clamp((t - tread - 0.72f) / 0.28f, 0.0f, 1.0f);
    const float rise = u * u * (3 - 2 * u);
    const float steep = u > 0 && u < 1 ? 6 * u * (1 - u) / 0.28f : 0.0f;
    constexpr float kKept = 0.2f;  // of the slope stays on the treads
    return {step_mm * (kKept * t + (1 - kKept) * (tread + rise)), r.slope * (kKept + (1 - kKept) * steep)};
}

// Broken bubbles: hollows about points strewn `wave_mm` apart.
Relief pits(const glm::vec3& p, float wave_mm, float depth_mm, float wide, std::uint32_t seed) {
    const CellSample c = cell_noise(p / wave_mm, seed);
    const float own = wide * (0.5f + 0.5f * static_cast<float>(c.id >> 8 & 255u) / 255.0f);
    if (c.nearest >= own || c.nearest <= 1e-6f) return {c.nearest < own ? -depth_mm : 0.0f, glm::vec2(0)};
    const float u = c.nearest / own;
    const float bowl = 1 - u * u;
    return {-depth_mm * bowl * bowl,
            depth_mm * 4 * u * bowl / (own * wave_mm) * -glm::vec2(c.to_nearest) / c.nearest};
}

}  // namespace

FaceKind face_kind(const Material& material) {
    switch (material.kind) {
        case Kind::glass:
        case Kind::epoxy:
            return FaceKind::fused;
        case Kind::slag:
            return FaceKind::lumpy;
        case Kind::stone:
        case Kind::cement:
        case Kind::timber:
        case Kind::paint:
            break;
    }
    if (material.density_g_per_cm3 < 1.6f) return FaceKind::pitted;
    if (material.grain.band_ratio >= 3) return FaceKind::riven;
    if (material.index > 1 && !material.filmed) return FaceKind::worn;
    return FaceKind::sawn;
}

FaceRelief::FaceRelief(FaceKind kind, const Material& material, float half_size_mm, std::uint64_t seed,
                       float farthest_mm)
    : kind_(kind),
      half_size_mm_(half_size_mm),
      reach_mm_(std::max(half_size_mm, 0.7f * farthest_mm)),
      ripple_size_mm_(std::max(material.ripple_size_mm, 0.5f)),
      seed_(static_cast<std::uint32_t>(mix_bits(seed))) {
    Rng rng(hash_combine(seed, 31));
    for (int axis = 0; axis < 3; ++axis) shift_[axis] = static_cast<float>(rng.within(0, 400));
    ripple_height_mm_ = std::tan(glm::radians(material.ripple_deg)) * ripple_size_mm_ / (2 * kNoiseSlope);
    if (kind_ != FaceKind::riven) return;
    // The split ran along two to four planes of weakness, 5 to 20 degrees off the bed, no farther than the
    // piece allows: common practice, no published source.
    const int facets = 2 + static_cast<int>(3 * rng.unit());
    const double first = rng.within(0, 2 * std::numbers::pi);
    for (int i = 0; i < facets; ++i) {
        const double turn = first + 2 * std::numbers::pi / facets * (i + rng.within(-0.25, 0.25));
        const double steepest = std::min(20.0, glm::degrees(std::atan(1.6 / static_cast<double>(reach_mm_))));
        const double least = std::min(5.0, 0.6 * steepest);
        const double slope = std::tan(glm::radians(rng.within(least, std::max(least + 0.5, steepest))));
        facets_.emplace_back(slope * std::cos(turn), slope * std::sin(turn), rng.within(0, 0.3));
    }
    // Level on the whole: as much stands above the plane of the face as lies below it.
    float mean = 0;
    constexpr int kAround = 12;
    for (int i = 0; i < kAround; ++i) {
        const double turn = 2 * std::numbers::pi / kAround * i;
        mean += facet_at(0.7f * half_size_mm * glm::vec2(std::cos(turn), std::sin(turn))).height_mm / kAround;
    }
    for (auto& f : facets_) f.z -= mean;
}

float FaceRelief::finest_wave_mm() const {
    switch (kind_) {
        case FaceKind::fused:
            return ripple_height_mm_ > 0 ? ripple_size_mm_ : 1000;
        case FaceKind::worn:
            return 14;
        case FaceKind::lumpy:
            return 3.6f;
        case FaceKind::riven:
        case FaceKind::pitted:
        case FaceKind::sawn:
            break;
    }
    return 2.4f;
}

Relief FaceRelief::facet_at(const glm::vec2& p_mm) const {
    const auto height = [&](const glm::vec3& f) { return f.z + glm::dot(glm::vec2(f), p_mm); };
    const auto lowest =
        std::min_element(facets_.begin(), facets_.end(),
                         [&](const glm::vec3& f, const glm::vec3& g) { return height(f) < height(g); });
    return {height(*lowest), glm::vec2(*lowest)};
}

Relief FaceRelief::at(const glm::vec2& p_mm) const {
    Relief sum;
    const auto noise = [&](float wave_mm, std::uint32_t layer) {
        return gradient_noise(glm::vec3(p_mm, 0) * (2 / wave_mm) + shift_, seed_ + layer);
    };
    const auto dome = [&](float rise_mm, float over_mm) {
        const float k = rise_mm / (over_mm * over_mm);
        heap(sum, {-k * glm::dot(p_mm, p_mm), -2 * k * p_mm});
    };
    switch (kind_) {
        case FaceKind::fused:
            if (!dome_mm_) dome(kUsualBulge * half_size_mm_, reach_mm_);
            if (ripple_height_mm_ > 0)
                heap(sum, scaled(noise(ripple_size_mm_, 1), ripple_height_mm_, ripple_size_mm_));
            break;
        case FaceKind::riven: {
            Relief bedding = facet_at(p_mm);
            heap(bedding, scaled(noise(18, 1), 0.6f, 18));
            heap(bedding, scaled(noise(6, 2), 0.16f, 6));
            // Mostly the facet itself, a little of it in steps along the bedding.
            const Relief steps = terraced(bedding, 0.42f);
            sum = {0.55f * bedding.height_mm + 0.45f * steps.height_mm,
                   0.55f * bedding.slope + 0.45f * steps.slope};
            heap(sum, scaled(noise(2.6f, 3), 0.05f, 2.6f));
            break;
        }
        case FaceKind::lumpy: {
            const NoiseSample shell = noise(11, 1);  // creased where shells meet
            const float side = shell.value < 0 ? -1.0f : 1.0f;
            dome(0.06f * half_size_mm_, reach_mm_);
            heap(sum, scaled({0.17f - side * shell.value, -side * shell.gradient}, 2.0f, 11));
            heap(sum, scaled(noise(3.6f, 2), 0.2f, 3.6f));
            break;
        }
        case FaceKind::pitted:
            dome(0.05f * half_size_mm_, reach_mm_);
            heap(sum, scaled(noise(9, 1), 0.5f, 9));
            heap(sum, pits(glm::vec3(p_mm, 0) + shift_, 3.4f, 1.0f, 0.55f, seed_ + 5));
            heap(sum, pits(glm::vec3(p_mm, 0) + shift_, 2.4f, 0.45f, 0.5f, seed_ + 6));
            break;
        case FaceKind::worn:
            dome(std::min(0.16f * half_size_mm_, kMostWear_mm), reach_mm_);
            heap(sum, scaled(noise(14, 1), 0.25f, 14));
            break;
        case FaceKind::sawn:
            heap(sum, scaled(noise(4, 1), 0.07f, 4));
            heap(sum, scaled(noise(2.4f, 2), 0.04f, 2.4f));
            break;
    }
    if (dome_mm_ && *dome_mm_ > 0) dome(*dome_mm_, half_size_mm_);
    for (const auto& chip : chips_) {
        const glm::vec2 r = p_mm - chip.at_mm;
        const float u2 = glm::dot(r, r) / (chip.radius_mm * chip.radius_mm);
        if (u2 >= 1) continue;
        constexpr float kWaves = 12, kSwell = 0.05f;  // two ripples a shell
        const float u = std::sqrt(u2), bowl = 1 - u2;
        const float wave = kSwell * std::sin(kWaves * u);
        // d/du of bowl * (wave - 1), along r.
        const float steep = 2 * u * (1 - wave) + bowl * kSwell * kWaves * std::cos(kWaves * u);
        heap(sum, {chip.depth_mm * bowl * (wave - 1),
                   chip.depth_mm * steep / (chip.radius_mm * std::max(glm::length(r), 1e-6f)) * r});
    }
    return sum;
}

}  // namespace rakelight
