// The outline of a piece as it is really cut: corners eased, sides a little hollow, arris crumbled; and how
// round the edge is at each point of it.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "scene/forms/piece_form.h"
#include "scene/geometry/region.h"

namespace rakelight {

struct RimPoint {
    glm::vec2 at{0};         ///< relative to the centre, mm
    glm::vec2 out{1, 0};     ///< unit, outward
    float radius_mm = 0.3f;  ///< of the edge between face and side
    float undercut_mm = 0;   ///< the back's rim lies this far inside
};

/// The cut rim, everywhere within the outline. `step_mm`: wanted distance of points on the sides. The number
/// of points is a multiple of eight. `centre` sees the whole outline.
std::vector<RimPoint> cut_rim(const Piece& piece, const FormRule& rule, const glm::dvec2& centre,
                              float step_mm);

/// More points within reach of each chip, so that shells have an edge.
void refine_near(std::vector<RimPoint>& rim, std::span<const Chip> chips);

}  // namespace rakelight
