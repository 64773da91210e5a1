// A tint by its recipe: pigments by mass in a base. Two-constant mixing: every gram adds its own absorption K
// and scattering S, whatever else is there (Duncan 1940, Proc. Phys. Soc. 52, 390), and the layer that
// results is Kubelka and Munk's.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "materials/optics/material.h"
#include "materials/stock/pigments.h"

namespace rakelight {

/// What pigment is mixed into. Figures are invented approximations.
struct Base {
    std::string name;
    Kind kind = Kind::cement;
    SampledSpectrum absorption_per_mm;  ///< Kubelka-Munk K of the cured base alone
    SampledSpectrum scattering_per_mm;  ///< Kubelka-Munk S
    float index = 1;                    ///< of the face; 1 = bare
    float roughness = 0;
    float matte_deg = 0;
    float density_g_per_cm3 = 1.95f;  ///< cured
    double weighed_g_per_cm3 = 1.65;  ///< mass weighed out (powder; resin, hardener and filler) per cm3 cured
    /// Share of the weighed mass that pigment is counted on: cement in the powder, resin with hardener in the
    /// paste. 30 to 45 % cement in a joint grout: common practice, no published source.
    double binder_share = 1;
    /// Share of its scattering that is left while water fills the pores; 1 for resin. Chosen for the usual
    /// darkening of a cement, 8 to 20 L*: from memory, no published source.
    double fresh_scattering = 1;
    double thickness_mm = 5;  ///< usual
};

/// white-cement, grey-cement, clear-epoxy, filled-epoxy. Null when there is no such base.
const Base* find_base(std::string_view name);
std::vector<std::string> base_names();

/// Share of the binder's mass.
struct Dose {
    Pigment pigment;
    double share = 0;
};

struct Recipe {
    Base base;
    std::vector<Dose> doses;
    double thickness_mm = 5;  ///< of the joint or bed: a clear base shows what is behind
    SampledSpectrum behind = SampledSpectrum(0.42f);  ///< reflectance behind it, in contact: a cement board
};

/// Cured and dry; or fresh from the trowel, its pores full of water and a film of water over it.
enum class Cure { cured, fresh };

/// Kubelka-Munk coefficients per mm.
struct Coefficients {
    SampledSpectrum absorption_per_mm;
    SampledSpectrum scattering_per_mm;
};

/// What is in order: doses 0 or more and 100 % at most in all, thickness above 0. \throws
/// std::invalid_argument.
void check_recipe(const Recipe& recipe);

/// K and S of the mixture; pigments take up room too. The recipe must be in order.
Coefficients mix(const Recipe& recipe, Cure cure = Cure::cured);

/// Reflectance of the body inside its face, 0..1.
SampledSpectrum inner_reflectance(const Recipe& recipe, Cure cure = Cure::cured);

/// Reflectance as an instrument d:8 with the mirrored part shut out reads it (ISO 7724-2), and as an eye
/// compares it with its neighbour: diffuse light, seen face on.
SampledSpectrum seen_reflectance(const Recipe& recipe, Cure cure = Cure::cured);

/// The two steps of the face for a body under index `index` (1 = none).
double seen_face_on(double inner, double index);
double inner_from_seen(double seen, double index);

/// As a material for joint or bed, cured and dry. \throws std::invalid_argument as check_recipe.
Material to_material(const Recipe& recipe, std::string name);

/// Most of this pigment, and of all together, that the base takes: shares of the binder.
double dose_limit(const Base& base, const Pigment& pigment);
double total_limit(const Base& base);

/// What the trade would object to, with its source: too much of one or of all, pigments that do not stand
/// cement. Nothing here stops a recipe.
std::vector<std::string> recipe_warnings(const Recipe& recipe);

/// What to beware of in handling dry pigment and this base.
std::vector<std::string> handling_warnings(const Recipe& recipe);

}  // namespace rakelight
