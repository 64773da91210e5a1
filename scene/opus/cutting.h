// From ground to tessera: the cell of a piece is drawn in by half a joint, freed of corners too sharp and
// edges too short to be cut by hand, broken where it would be hollow, and nudged as a hand nudges.
#pragma once

#include <cstdint>
#include <vector>

#include "scene/geometry/region.h"
#include "scene/model/half_joint.h"

namespace rakelight {

/// Sharpest corner of a piece of glass, with two degrees for the hand; common practice, no published source.
inline constexpr double kLeastAngle_deg = 32;

struct CuttingRules {
    double joint_mm = 1.5;
    double nominal_mm2 = 100;  ///< area of a whole piece
    double least_edge_mm = 2;
    double least_angle_deg = kLeastAngle_deg;
    double least_width_mm = 3.5;   ///< 4 * area / perimeter of the smallest remnant that is laid
    std::size_t most_corners = 7;  ///< beyond it, longer edges are dropped too:
    double crowded_edge = 2.2;     ///< up to this many times the least
    double hand = 0.05;            ///< nudge of corners, relative to the joint when multiplied by 4
};

/// The pieces cut from a cell: usually one, two where a hollow cell is broken, none where it is a mere
/// splinter. All lie within the cell drawn in by `kDrawnIn` joints, counter-clockwise.
std::vector<Ring> cut_cell(const Ring& cell, const CuttingRules& rules, std::uint64_t seed);

/// Interior angle at corner `i`, degrees: 0..360.
double interior_angle_deg(const Ring& ring, std::size_t i);

}  // namespace rakelight
