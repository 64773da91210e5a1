// A photograph laid on a picture more exactly than corners are clicked: the homography under which both look
// most alike, whatever their exposure (enhanced correlation coefficient, Evangelidis and Psarakis 2008, IEEE
// Trans. Pattern Anal. Mach. Intell. 30, 1858), coarse to fine. Light that falls off over the panel is taken
// out before, so that edges count.
#pragma once

#include "output/compare/homography.h"
#include "output/compare/plane.h"

namespace rakelight {

struct Registered {
    glm::dmat3 to_photo{1};  ///< from the picture's pixels to the photograph's
    double alike = 0;        ///< correlation of the two, -1..1
    double alike_as_given = 0;
};

/// `picture`, `photo`: luminance in any unit, 0 or more. `weight`: 0..1, which pixels of the picture count.
/// `given`: about right, within a twentieth of the panel.
Registered registered(const Plane& picture, const Plane& weight, const Plane& photo, const glm::dmat3& given);

}  // namespace rakelight
