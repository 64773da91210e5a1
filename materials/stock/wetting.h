// Why stone and cement grow darker when wet, sealed or waxed: light that left the rough ground is turned back
// by the film's face and asks to be absorbed again; and grains that a liquid surrounds scatter less. Source:
// Lekner and Dorf 1988, Appl. Opt. 27, 1278, after Angstrom 1925.
#pragma once

#include "materials/colour/sampled_spectrum.h"

namespace rakelight {

/// Absorptance, first-surface loss included, of ground of dry absorptance `absorptance` (0..1) under a film
/// that mirrors `mirrored` of what arrives and turns back `returned` of what comes from below.
double wet_absorptance(double absorptance, double mirrored, double returned);

/// Absorptance of ground whose grains (index `grain`) lie in a liquid instead of in air: from the dry one by
/// the ratio of what the grains' own faces let in, full for weak absorbers and none for black ones (the
/// paper's second effect; its form from memory).
double soaked_absorptance(double absorptance, double liquid, double grain = 1.5);

/// The same for a reflectance per band, 0..1.
SampledSpectrum soaked_reflectance(const SampledSpectrum& reflectance, double liquid);

/// Index of the one face that mirrors head-on as much as a film of index `film` over a body of index `below`
/// (both at least 1), all returns within the film included.
double film_index(double film, double below);

/// Reflectance of ground with open pores: `trapped` (0..1) of the light that leaves it meets ground once
/// more, and so on. White stays white, dark grows darker.
double open_pores(double reflectance, double trapped);

}  // namespace rakelight
