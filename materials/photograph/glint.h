// Roughness of a face from how wide a lamp's reflection looks in it: on a flat piece seen and lit nearly
// square on, a mirror shows the lamp's image, and facets spread it (GGX, Walter, Marschner, Li and Torrance
// 2007, Rendering Techniques, eq. 20 and 33).
#pragma once

namespace rakelight {

/// A reflection as measured in a photograph or with a ruler.
struct Glint {
    double width_mm = 0;            ///< across the face, between the places half as bright as its middle
    double lamp_mm = 0;             ///< diameter of the lamp's bright disc
    double lamp_distance_mm = 0;    ///< from the face
    double camera_distance_mm = 0;  ///< of lens or eye from the face
};

/// What a perfect mirror would show.
double mirrored_width_mm(const Glint& glint);

/// Width that a face of GGX `alpha`, 0..1, shows; `glint.width_mm` is not looked at.
double glint_width_mm(const Glint& glint, double alpha);

/// GGX alpha of the face, 0 where it cannot be told from a mirror. \throws std::invalid_argument when a
/// length is not above 0, or the glint is narrower than a mirror's or wider than any face spreads it.
double roughness_of(const Glint& glint);

}  // namespace rakelight
