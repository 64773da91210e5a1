// Accessories of a luminaire as light meets them: snoot, barn doors, honeycomb. Snoot and barn doors stop
// single rays, so that a mirror image of the lamp is cut where the lamp's own face is; a honeycomb, much
// finer than the eye sees, dims by the share of its openings. All are black: what they stop is lost.
#pragma once

#include <array>
#include <cmath>
#include <glm/glm.hpp>

#include "scene/model/lamp_fittings.h"

namespace rakelight {

struct CutOffs {
    struct Edge {
        float beyond_mm = 0;  ///< from the middle of the face, across it
        float ahead_mm = 0;   ///< in front of the face; 0 = no door
    };
    std::array<Edge, 4> doors;   ///< towards +u, -u, +v, -v of the face
    float honeycomb = 0;         ///< depth over diameter of a cell; 0 = none
    float snoot_length_mm = 0;   ///< 0 = none
    float snoot_radius_mm2 = 0;  ///< radius of its mouth, squared

    /// Share of the light that passes, 0..1: from a point (u, v) of the face, along a direction that moves by
    /// `slope` across the face for each millimetre ahead.
    float passes(const glm::vec2& at_mm, const glm::vec2& slope) const {
        if (snoot_length_mm > 0) {
            const glm::vec2 mouth = at_mm + slope * snoot_length_mm;
            if (glm::dot(mouth, mouth) > snoot_radius_mm2) return 0;
        }
        for (int i = 0; i < 4; ++i) {
            const Edge& door = doors[static_cast<std::size_t>(i)];
            const float sign = i % 2 == 0 ? 1.0f : -1.0f;
            if (door.ahead_mm > 0 && sign * (at_mm[i / 2] + slope[i / 2] * door.ahead_mm) > door.beyond_mm)
                return 0;
        }
        return honeycomb > 0 ? through_tubes(honeycomb * glm::length(slope)) : 1.0f;
    }

    /// Open share of tubes seen at an angle: two circles of diameter 1 whose centres lie `shift` apart, their
    /// common area over that of one.
    static float through_tubes(float shift) {
        if (shift >= 1) return 0;
        return 0.636619772f * (std::acos(shift) - shift * std::sqrt(1 - shift * shift));
    }
};

/// For a face of this half size; `half_mm.x` is the radius of a round one.
CutOffs make_cut_offs(const LampFittings& fittings, const glm::vec2& half_mm);

/// The angle from the axis beyond which nothing passes a honeycomb, or a snoot before a disc of
/// `face_width_mm`; degrees.
double cut_off_deg(const Honeycomb& honeycomb);
double cut_off_deg(const Snoot& snoot, double face_width_mm);

/// The angle up to which a snoot hides nothing of the disc, degrees; 0 when it is narrower than that.
double clear_deg(const Snoot& snoot, double face_width_mm);

}  // namespace rakelight
