// The straight things round a panel: boxes, the mitred frame, the room seen from within.
#pragma once

#include <glm/glm.hpp>

#include "scene/geometry/mesh.h"

namespace rakelight {

/// A closed box between two corners, hard edges.
Mesh box_mesh(const glm::dvec3& low_mm, const glm::dvec3& high_mm);

/// A closed box whose edges are eased by `ease_mm`, or by a third of its shortest side where that is less.
Mesh eased_box_mesh(const glm::dvec3& low_mm, const glm::dvec3& high_mm, double ease_mm);

/// A flat rectangle: corner and two sides; its normal is cross(side_u, side_v).
Mesh rectangle_mesh(const glm::dvec3& corner_mm, const glm::dvec3& side_u_mm, const glm::dvec3& side_v_mm);

/// Sides of a frame, in the order bottom, right, top, left.
inline constexpr int kFrameSides = 4;

/// What a mitre leaves open between two bars, square to its cut, mm: the fine line at the corners of a frame.
inline constexpr double kMitreGap_mm = 0.2;

/// One mitred bar of a frame round an opening centred on the origin, arrises eased with a 1.5 mm radius. A
/// closed mesh; its ends are cut at 45 degrees, half of `kMitreGap_mm` short of the corner's diagonal.
/// Lies between `back_mm` and `front_mm` in z.
Mesh frame_bar_mesh(int side, double opening_width_mm, double opening_height_mm, double bar_width_mm,
                    double back_mm, double front_mm);

}  // namespace rakelight
