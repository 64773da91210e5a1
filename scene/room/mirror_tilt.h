// How a face has to stand to throw a lamp into an eye: its normal halves the angle between the two. Tilting a
// face by a turns what it mirrors by 2a (law of reflection).
#pragma once

#include <glm/glm.hpp>

namespace rakelight {

/// Unit normal of a small mirror at `at_mm` that shows the lamp to the eye. All three in room coordinates,
/// none in one place. Where lamp and eye lie opposite each other, seen from the face, none does: then (0, 0,
/// 1).
glm::dvec3 mirroring_normal(const glm::dvec3& at_mm, const glm::dvec3& lamp_mm, const glm::dvec3& eye_mm);

/// How far a face on an upright or leaning panel is tilted then, degrees.
struct NeededTilt {
    double up_deg = 0;     ///< about the level line in the wall; positive: the face looks up
    double aside_deg = 0;  ///< about the upright line in the panel; positive: it looks to the right
    double total_deg = 0;  ///< between the face's normal and the panel's
};

/// `lean_deg`: of the panel, its top into the room.
NeededTilt needed_tilt(const glm::dvec3& at_mm, const glm::dvec3& lamp_mm, const glm::dvec3& eye_mm,
                       double lean_deg = 0);

/// Share of faces that show the lamp when their tilts are spread about flat with a standard deviation of
/// `spread_deg` each way (normal, independent) and a face shows it within `reach_deg` of the needed tilt: the
/// lamp's half angle and the face's lobe, halved. The spread's density at the needed tilt times the disc:
/// reach^2 / (2 spread^2) exp(-tilt^2 / (2 spread^2)); good while reach is small against spread.
double share_that_mirrors(double total_tilt_deg, double spread_deg, double reach_deg);

}  // namespace rakelight
