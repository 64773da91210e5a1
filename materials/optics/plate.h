// A flat plate of translucent glass on a card, as a camera square over it sees it: its radiance factor (light
// sent to the camera over that of a perfect diffuser in the same place, CIE S 017), both faces smooth. The
// same scattering, absorption and interface as in layer.h, but solved for one direction of light and one of
// view: no product form stands between a photograph and the glass.
#pragma once

#include "materials/optics/layer.h"

namespace rakelight {

/// How a plate lies on what is behind it.
enum class Lying {
    dry,    ///< a film of air between: the lower face reflects inside, as the upper does
    bonded  ///< in optical contact, as glass in its bed
};

/// Where the light of a photograph comes from. What the faces mirror of it never reaches the camera.
enum class PhotographLight {
    at_45_deg,  ///< two lamps at 45 degrees, or one
    diffuse     ///< evenly from everywhere, as between a north window and white card
};

/// The glass of a plate in one band, to be laid on any card.
struct Plate {
    double over_black = 0;  ///< radiance factor of the glass alone
    double through = 0;     ///< to the card and back from it to the camera
    double returned = 0;    ///< of the light that leaves the card, what the plate sends back to it

    /// Radiance factor at the normal over a matte card of reflectance `card`, 0..1: its own in air when the
    /// plate lies dry, that in contact when bonded.
    double over(double card) const { return over_black + through * card / (1 - returned * card); }
};

/// `frame`: of a smooth interface (index above 1). The band's backing is not looked at.
Plate make_plate(const LayerFrame& frame, const LayerBand& band, Lying lying, PhotographLight light);

}  // namespace rakelight
