// A lamp or window cut into parts small enough to be reckoned as one rectangle each, as seen from a place in
// the room: what a bright thing is to a small mirror, and to a light meter.
#pragma once

#include <vector>

#include "scene/light/emitter.h"

namespace rakelight {

/// A bright rectangle, room coordinates. Round faces are squares or rectangles of the same area.
struct LampPart {
    glm::dvec3 at_mm{};
    glm::dvec3 half_u_mm{};  ///< from the middle to the middle of a side
    glm::dvec3 half_v_mm{};
    glm::vec2 on_face_mm{0};  ///< of a flat lamp: where on its face
};

/// Largest angle that a part is seen under.
inline constexpr double kWidestPart_deg = 8;

/// `lamp` in room coordinates (made with an origin of zero). Bodies are taken as they look from
/// `seen_from_mm`. The sun is one part that stands where it is seen from there.
std::vector<LampPart> parts_of(const Emitter& lamp, const glm::dvec3& seen_from_mm);

/// Luminance of a part towards a point of the room, cd/m2; 0 when it faces away, or when the sun does not
/// reach the point through its window.
double luminance_toward(const Emitter& lamp, const LampPart& part, const glm::dvec3& point_mm);

/// Light that the part throws on a small plane, lux; `normal` unit.
double lux_on(const Emitter& lamp, const LampPart& part, const glm::dvec3& point_mm,
              const glm::dvec3& normal);

}  // namespace rakelight
