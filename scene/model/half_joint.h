// Half a joint. Each of two neighbours gives half of the joint between them; what is cut by hand gives a
// little less, and what is drawn or sawn goes a little beyond it.
#pragma once

namespace rakelight {

/// Where the line of a drawing is the middle of a joint.
constexpr double half_joint_mm(double joint_mm) {
    return joint_mm / 2;
}

/// Of the joint, that drawing in takes off a cell which is cut by hand: a little less than half, the hand
/// takes the rest.
inline constexpr double kDrawnIn = 0.42;

/// Of the joint, that its colour is drawn from the middle: half, and a hair under the pieces.
inline constexpr double kUnderPieces = 0.55;

/// Of the joint, that a slit through a shape reaches past its outline: half, and surely through.
inline constexpr double kThrough = 0.6;

}  // namespace rakelight
