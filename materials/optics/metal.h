// Gold and silver: complex refractive index by wavelength, and what it mirrors, bare or under glass.
// Source of the indices: Johnson and Christy 1972, Phys. Rev. B 6, 4370 (measured films), linear between
// their points.
#pragma once

#include <array>

#include "materials/colour/sampled_spectrum.h"
#include "materials/optics/material.h"

namespace rakelight {

/// Index n - i k of a metal at the bands.
struct MetalIndex {
    std::array<double, kBandCount> n{};
    std::array<double, kBandCount> k{};
};

/// \throws std::invalid_argument for Leaf::none.
const MetalIndex& metal_index(Leaf metal);

/// Reflectance of a smooth metal for unpolarised light at the cosine `cos_in`, 0..1, in a medium of index
/// `outside` (1 air, 1.52 glass): under glass a metal mirrors less than in air.
SampledSpectrum metal_mirror(const MetalIndex& metal, double cos_in, double outside);

/// The mean of it under uniform light, 0..1.
SampledSpectrum metal_diffuse(const MetalIndex& metal, double outside);

/// Light that enters a smooth clear plate of index `index`, reaches a metal under it along the slant of the
/// refracted ray, and leaves again after any number of returns inside: the share of the light that entered,
/// 0..1. `cos_inside`: of the refracted ray; `pass`: internal transmittance of one crossing along that slant.
/// Each polarisation on its own (Fresnel's equations, Born and Wolf, Principles of Optics, sec. 1.5 and 14.2;
/// the returns are a geometric series). With index 1 and pass 1 it is `metal_mirror` in air.
SampledSpectrum metal_under_glass(const MetalIndex& metal, double index, double cos_inside,
                                  const SampledSpectrum& pass);

}  // namespace rakelight
