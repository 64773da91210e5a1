// Reflectance of a smooth interface: Fresnel's equations for unpolarised light, and their averages over a
// hemisphere. Source: Born and Wolf, Principles of Optics, sec. 1.5; the closed average after Duntley 1942
// (Walsh 1926).
#pragma once

#include <cmath>

#include "materials/maths/lanes.h"

namespace rakelight {

/// Reflectance of a dielectric interface for unpolarised light, 0..1.
/// `cos_in`: cosine of the angle of incidence, 0..1. `index`: index behind the interface over index before
/// it; below 1 it is the inside of the interface, and 1 is returned from the critical angle on.
template <class Real>
inline Real dielectric_reflectance(Real cos_in, Real index) {
    const Real below = index * index - 1 + cos_in * cos_in;  // (index * cosine of the refracted ray)^2
    if (!(below > 0)) return index == 1 ? Real(0) : Real(1);
    const Real t = std::sqrt(below);
    const Real n2c = index * index * cos_in;
    const Real s = (cos_in - t) * (n2c + t), p = (n2c - t) * (cos_in + t);  // both over one denominator
    const Real d = (cos_in + t) * (n2c + t);
    return Real(0.5) * (s * s + p * p) / (d * d);
}

/// The same for eight interfaces with `index` >= 1.
inline Floats dielectric_reflectance(const Floats& cos_in, const Floats& index) {
    const Floats n2 = index * index;
    const Floats t = sqrt(n2 - 1 + cos_in * cos_in);
    const Floats n2c = n2 * cos_in;
    const Floats s = (cos_in - t) * (n2c + t), p = (n2c - t) * (cos_in + t);
    const Floats d = (cos_in + t) * (n2c + t);
    return 0.5f * (s * s + p * p) / (d * d);
}

/// Reflectances of a metal (index n - i k) for light polarised across (s) and in (p) the plane of incidence.
struct Polarised {
    double s = 0;
    double p = 0;
};

/// `n`, `k`: real and imaginary index of the metal over the (real) index of the medium before it.
inline Polarised metal_reflectances(double cos_in, double n, double k) {
    const double sin2 = 1 - cos_in * cos_in;
    const double e = n * n - k * k - sin2;
    const double a2b2 = std::hypot(e, 2 * n * k);
    const double a = std::sqrt(std::fmax(0.0, 0.5 * (a2b2 + e)));
    const double s = (a2b2 - 2 * a * cos_in + cos_in * cos_in) / (a2b2 + 2 * a * cos_in + cos_in * cos_in);
    const double c2a = cos_in * cos_in * a2b2 + sin2 * sin2;
    const double c2b = 2 * a * cos_in * sin2;
    return {s, s * (c2a - c2b) / (c2a + c2b)};
}

/// Reflectance of a metal for unpolarised light, 0..1; arguments as metal_reflectances.
inline double metal_reflectance(double cos_in, double n, double k) {
    const Polarised r = metal_reflectances(cos_in, n, k);
    return 0.5 * (r.s + r.p);
}

/// Reflectance of a dielectric interface under uniform light from the thinner side; `index` >= 1.
inline double diffuse_reflectance_outside(double index) {
    const double n = index, n2 = n * n, n4 = n2 * n2;
    if (n - 1 < 1e-6) return 0;
    const double up = (n2 - 1) / (n2 + 1);
    return 0.5 + (n - 1) * (3 * n + 1) / (6 * (n + 1) * (n + 1)) +
           n2 * up * up / (n2 + 1) * std::log((n - 1) / (n + 1)) -
           2 * n2 * n * (n2 + 2 * n - 1) / ((n2 + 1) * (n4 - 1)) +
           8 * n4 * (n4 + 1) / ((n2 + 1) * (n4 - 1) * (n4 - 1)) * std::log(n);
}

/// The same from the denser side, total reflection included: 1 - (1 - outside) / n^2 by reciprocity.
inline double diffuse_reflectance_inside(double index) {
    return 1 - (1 - diffuse_reflectance_outside(index)) / (index * index);
}

}  // namespace rakelight
