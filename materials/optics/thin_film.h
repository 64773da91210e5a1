// Thin films: what layers as thin as light is long mirror, by angle and wavelength; the colours of soap, of
// iridised glass, of dichroic coatings. Plane waves in homogeneous layers, each a matrix (Abeles 1950; Born
// and Wolf, "Principles of Optics", 1.6), averaged over both polarisations; Fresnel's coefficients at each
// face and Airy's sum of all passes follow from it.
#pragma once

#include <complex>
#include <span>

namespace rakelight {

/// One layer of a coating.
struct FilmLayer {
    double index = 1.38;  ///< of refraction, real: it absorbs nothing
    double thickness_nm = 100;
};

/// Reflectance, 0..1, of layers between a medium of `index_over` and one of `index_under` (real, at least 1).
/// `layers`: outermost first. `cosine_over`: of the ray in the medium over it, 0..1; `nm`: in vacuum, above
/// 0. 1 where the ray is totally reflected.
double film_reflectance(double index_over, std::span<const FilmLayer> layers, double index_under,
                        double cosine_over, double nm);

}  // namespace rakelight
