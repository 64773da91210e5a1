#include "materials/optics/metal.h"

#include <boost/math/quadrature/gauss.hpp>
#include <cmath>
#include <stdexcept>

#include "materials/optics/fresnel.h"

namespace rakelight {
namespace {

// Johnson and Christy's photon energies from 1.76 to 3.12 eV, here as wavelengths.
struct Point {
    double wavelength_nm, gold_n, gold_k, silver_n, silver_k, copper_n, copper_k;
};
// clang-format off
constexpr Point kPoints[] = {
    {397.4, 1.47, 1.952, .05, 2.070, 1.32, 2.116}, {413.3, 1.46, 1.958, .05, 2.275, 1.28, 2.207},
    {430.5, 1.45, 1.948, .04, 2.462, 1.25, 2.305}, {450.9, 1.38, 1.914, .04, 2.657, 1.24, 2.397},
    {471.4, 1.31, 1.849, .05, 2.869, 1.25, 2.483}, {495.9, 1.04, 1.833, .05, 3.093, 1.22, 2.564},
    {520.9, 0.62, 2.081, .05, 3.324, 1.18, 2.608}, {548.6, 0.43, 2.455, .06, 3.586, 1.02, 2.577},
    {582.1, 0.29, 2.863, .05, 3.858, 0.70, 2.704}, {616.8, 0.21, 3.272, .06, 4.152, 0.30, 3.205},
    {659.5, 0.14, 3.697, .05, 4.483, 0.22, 3.747}, {704.5, 0.13, 4.103, .04, 4.838, 0.21, 4.205},
};
// clang-format on

MetalIndex at_bands(double Point::*n, double Point::*k) {
    MetalIndex r;
    std::size_t upper = 1;
    for (int band = 0; band < kBandCount; ++band) {
        const double nm = band_wavelength_nm(band);
        while (kPoints[upper].wavelength_nm < nm) ++upper;
        const Point &a = kPoints[upper - 1], &b = kPoints[upper];
        const double t = (nm - a.wavelength_nm) / (b.wavelength_nm - a.wavelength_nm);
        const auto i = static_cast<std::size_t>(band);
        r.n[i] = a.*n + t * (b.*n - a.*n);
        r.k[i] = a.*k + t * (b.*k - a.*k);
    }
    return r;
}

// Reflectances of a dielectric interface seen from inside, by polarisation.
Polarised face_from_inside(double cos_inside, double index) {
    const double sin2 = index * index * (1 - cos_inside * cos_inside);
    if (sin2 >= 1) return {1, 1};
    const double cos_outside = std::sqrt(1 - sin2);
    const double s = (index * cos_inside - cos_outside) / (index * cos_inside + cos_outside);
    const double p = (cos_inside - index * cos_outside) / (cos_inside + index * cos_outside);
    return {s * s, p * p};
}

}  // namespace

const MetalIndex& metal_index(Leaf metal) {
    static const MetalIndex gold = at_bands(&Point::gold_n, &Point::gold_k);
    static const MetalIndex silver = at_bands(&Point::silver_n, &Point::silver_k);
    static const MetalIndex copper = at_bands(&Point::copper_n, &Point::copper_k);
    switch (metal) {
        case Leaf::none:
            break;
        case Leaf::gold:
            return gold;
        case Leaf::silver:
            return silver;
        case Leaf::copper:
            return copper;
    }
    throw std::invalid_argument("no leaf has no index");
}

SampledSpectrum metal_mirror(const MetalIndex& metal, double cos_in, double outside) {
    SampledSpectrum r;
    for (int band = 0; band < kBandCount; ++band) {
        const auto i = static_cast<std::size_t>(band);
        r[band] = static_cast<float>(metal_reflectance(cos_in, metal.n[i] / outside, metal.k[i] / outside));
    }
    return r;
}

SampledSpectrum metal_diffuse(const MetalIndex& metal, double outside) {
    SampledSpectrum r;
    for (int band = 0; band < kBandCount; ++band) {
        const auto i = static_cast<std::size_t>(band);
        r[band] = static_cast<float>(boost::math::quadrature::gauss<double, 30>::integrate(
            [&](double c) {
                return 2 * c * metal_reflectance(c, metal.n[i] / outside, metal.k[i] / outside);
            },
            0.0, 1.0));
    }
    return r;
}

SampledSpectrum metal_under_glass(const MetalIndex& metal, double index, double cos_inside,
                                  const SampledSpectrum& pass) {
    const Polarised interface = face_from_inside(cos_inside, index);
    const double entered = 2 - interface.s - interface.p;  // of unpolarised light, twice its share
    SampledSpectrum r;
    if (!(entered > 0)) return r;
    for (int band = 0; band < kBandCount; ++band) {
        const auto i = static_cast<std::size_t>(band);
        const Polarised leaf = metal_reflectances(cos_inside, metal.n[i] / index, metal.k[i] / index);
        const double twice = static_cast<double>(pass[band]) * pass[band];
        const auto leaves = [&](double f, double m) {
            return (1 - f) * (1 - f) * twice * m / (1 - f * twice * m);
        };
        r[band] = static_cast<float>((leaves(interface.s, leaf.s) + leaves(interface.p, leaf.p)) / entered);
    }
    return r;
}

}  // namespace rakelight
