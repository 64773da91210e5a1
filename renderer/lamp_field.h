// All lamps of a picture at once, laid out by component so that the two questions asked at every vertex
// (which lamp is worth asking, does this ray run into one) are a few vector instructions.
#pragma once

#include <array>
#include <glm/glm.hpp>
#include <span>

#include "renderer/lamp_light.h"

namespace rakelight {

inline constexpr std::size_t kMostLamps = 64;
inline constexpr std::size_t kLampsAtOnce = 8;

class LampField {
  public:
    /// `lamps` must outlive the field. \throws std::invalid_argument beyond kMostLamps.
    explicit LampField(std::span<const Emitter> lamps) : lamps_(lamps) {
        if (lamps.size() > kMostLamps) throw std::invalid_argument("more than 64 lamps are lit");
        for (std::size_t i = 0; i < lamps.size(); ++i) {
            const Emitter& e = lamps[i];
            for (int c = 0; c < 3; ++c) {
                centre_[c][i] = e.centre_mm[c];
                axis_[c][i] = e.axis[c];
            }
            radius_[i] = e.shape == EmitterShape::rectangle ? std::hypot(e.half_width_mm, e.half_height_mm)
                                                            : e.half_width_mm;
            power_[i] = e.peak_cd_per_m2 * luminous_face_mm2(e);
            // How a lamp's face fades off its axis, as a straight line in the cosine: even for a sphere, the
            // cosine itself for a matte panel, from 1 to 0 at the end of a spot's beam.
            const float end = e.shape == EmitterShape::disc ? e.beam.cosine_at_end() : 0;
            slope_[i] = e.shape == EmitterShape::sphere ? 0 : 1 / (1 - end);
            shift_[i] = e.shape == EmitterShape::sphere ? 1 : -end * slope_[i];
        }
        padded_ = (lamps.size() + kLampsAtOnce - 1) / kLampsAtOnce * kLampsAtOnce;
    }

    std::span<const Emitter> lamps() const { return lamps_; }

    /// What each lamp would give a place whose surface faces `normal`, unshadowed, up to one factor: exact
    /// zero only where no part of a lamp can be seen. Returns the sum; `promises` holds at least kMostLamps.
    float promise(const glm::vec3& at_mm, const glm::vec3& normal,
                  std::array<float, kMostLamps>& promises) const {
        float total = 0;
        for (std::size_t first = 0; first < padded_; first += kLampsAtOnce) {
            for (std::size_t i = first; i < first + kLampsAtOnce; ++i) {
                const float x = centre_[0][i] - at_mm.x;
                const float y = centre_[1][i] - at_mm.y;
                const float z = centre_[2][i] - at_mm.z;
                const float d2 = std::max(x * x + y * y + z * z, radius_[i] * radius_[i] + 1e-6f);
                const float inverse = 1 / std::sqrt(d2);
                const float reach =
                    radius_[i] * inverse;  // part of a face may show while its centre does not
                const float facing = (x * normal.x + y * normal.y + z * normal.z) * inverse + reach;
                const float cosine = reach - (x * axis_[0][i] + y * axis_[1][i] + z * axis_[2][i]) * inverse;
                const float fade = std::min(cosine * slope_[i] + shift_[i], 1.0f);
                promises[i] = power_[i] * std::max(facing, 0.0f) * std::max(fade, 0.0f) / d2;
            }
            for (std::size_t i = first; i < first + kLampsAtOnce; ++i) total += promises[i];
        }
        return total;
    }

    /// Nearest luminous face along a ray, nearer than `most_mm`; lamp = kMostLamps when there is none.
    LampHit meet(const glm::vec3& from_mm, const glm::vec3& direction, float most_mm) const {
        LampHit nearest{.distance_mm = most_mm, .cd_per_m2 = 0, .lamp = kMostLamps};
        for (std::size_t first = 0; first < padded_; first += kLampsAtOnce) {
            std::array<float, kLampsAtOnce>
                inside;  // of the ball round each lamp, above zero if the ray enters it
            for (std::size_t k = 0; k < kLampsAtOnce; ++k) {
                const std::size_t i = first + k;
                const float x = centre_[0][i] - from_mm.x;
                const float y = centre_[1][i] - from_mm.y;
                const float z = centre_[2][i] - from_mm.z;
                const float along = x * direction.x + y * direction.y + z * direction.z;
                const float aside_x = x - along * direction.x;
                const float aside_y = y - along * direction.y;
                const float aside_z = z - along * direction.z;
                inside[k] = radius_[i] * radius_[i] * 1.001f -
                            (aside_x * aside_x + aside_y * aside_y + aside_z * aside_z);
            }
            float most = inside[0];
            for (std::size_t k = 1; k < kLampsAtOnce; ++k) most = std::max(most, inside[k]);
            if (most <= 0) continue;
            for (std::size_t k = 0; k < kLampsAtOnce && first + k < lamps_.size(); ++k)
                if (inside[k] > 0)
                    meet_lamp(lamps_[first + k], static_cast<std::uint32_t>(first + k), from_mm, direction,
                              nearest);
        }
        return nearest;
    }

  private:
    using Lane = std::array<float, kMostLamps>;
    std::span<const Emitter> lamps_;
    std::size_t padded_ = 0;
    alignas(64) std::array<Lane, 3> centre_{};
    alignas(64) std::array<Lane, 3> axis_{};
    alignas(64) Lane radius_{};
    alignas(64) Lane power_{};
    alignas(64) Lane slope_{};
    alignas(64) Lane shift_{};
};

/// Which lamp is asked at a vertex.
struct LampChoice {
    std::array<float, kMostLamps> promises;
    float total;

    LampChoice(const LampField& field, const glm::vec3& at_mm, const glm::vec3& normal)
        : total(field.promise(at_mm, normal, promises)) {}

    /// Probability of a lamp being picked.
    float share(std::uint32_t lamp) const { return total > 0 ? promises[lamp] / total : 0; }

    /// Picks a lamp by one uniform number; only when total > 0.
    std::uint32_t pick(float u, std::size_t count) const {
        float left = u * total;
        std::uint32_t last = 0;
        for (std::uint32_t i = 0; i < count; ++i) {
            if (promises[i] <= 0) continue;
            last = i;
            left -= promises[i];
            if (left < 0) break;
        }
        return last;
    }
};

}  // namespace rakelight
