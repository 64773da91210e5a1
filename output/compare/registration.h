// A photograph laid on a picture more exactly than corners are clicked: the homography under which both look
// most alike, whatever their exposure (enhanced correlation coefficient, Evangelidis and Psarakis 2008, IEEE
// Trans. Pattern Anal. Mach. Intell. 30, 1858), coarse to fine. Compared is how strong edges are, relative to
// those around, so that neither the light of the place nor a piece of another colour draws them aside.
#pragma once

#include "output/compare/homography.h"
#include "output/compare/panel_photograph.h"

namespace rakelight {

struct Registered {
    glm::dmat3 to_photo{1};  ///< from the picture's pixels to the photograph's
    double alike = 0;        ///< correlation of the two, -1..1
    double alike_as_given = 0;
};

/// `picture`: linear channels in any unit, as many as `weight`, 0..1, says which of its pixels count.
/// `given`: about right, within a piece or so.
Registered registered(const std::vector<glm::vec3>& picture, const Plane& weight,
                      const PanelPhotograph& photo, const glm::dmat3& given);

}  // namespace rakelight
