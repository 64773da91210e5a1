// K and S of a pigment from two drawdowns of it in one base: a strong one (masstone) and a weak one (tint).
// Both are measured where the layer hides what is behind it; the two equations of two-constant mixing are
// then linear in K and S of the pigment in every band, and solved exactly.
#pragma once

#include <string>

#include "materials/stock/recipe.h"

namespace rakelight {

/// A drawdown thick enough to hide what is behind it.
struct Drawdown {
    double share = 0;       ///< of the binder's mass
    SampledSpectrum seen;   ///< reflectance as `seen_reflectance` defines it, 0..1, ends excluded
    SampledSpectrum error;  ///< its standard deviation; 0 = exact
};

/// How many others are drawn for a pigment whose curves are uncertain.
inline constexpr int kPigmentDraws = 24;

/// The pigment that makes both drawdowns; limits and warnings are left at their usual values. `tint.share` is
/// the smaller. Of uncertain curves also pigments drawn at random, by its name: errors normal in size and
/// alike over some 60 nm, as estimates of spectra from a camera's channels err (an assumption, no published
/// source). \throws std::invalid_argument, naming the wavelength, when no K and S of 0 or more do.
Pigment measured_pigment(std::string name, const Base& base, const Drawdown& tint, const Drawdown& masstone);

}  // namespace rakelight
