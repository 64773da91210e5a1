// A material with a second colour or with seeds as a row of surfaces: its own colour, then steps to each
// second colour, then the heart and the rim of a seed, in the order of materials/markings/marks.h. Melts mix
// by their coefficients; opaque bodies by K/S (Kubelka and Munk 1931, equal scattering).
#pragma once

#include <vector>

#include "materials/markings/marks.h"
#include "materials/optics/surface.h"

namespace rakelight {

/// Whether places of a material differ in surface.
bool has_looks(const Material& material);

/// Its markings, compiled. Stone is cut in any direction, a sheet along its pull or across.
Marks marks_of(const Material& material);

/// The surfaces of all its looks; arguments as those of make_surface. \throws as make_surface
std::vector<Surface> surfaces_of_looks(const Material& material, double thickness_mm,
                                       const SampledSpectrum& backing_reflectance, double tone,
                                       InterfaceTables& cache, const SideWall& side = {});

/// About what they amount to, from its own colour and two steps to each second one alone, without seeds.
Surface quick_mean_of_looks(const Material& material, double thickness_mm,
                            const SampledSpectrum& backing_reflectance, double tone, InterfaceTables& cache,
                            const SideWall& side = {});

/// What they amount to over a large face, which is what make_surface makes of such a material.
Surface mean_of_looks(const std::vector<Surface>& looks, const std::vector<float>& shares);

}  // namespace rakelight
