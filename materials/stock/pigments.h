// Dry pigments by their Colour Index generic names: how strongly a gram of each absorbs and scatters, how
// much of it a base will take, and what to beware of. The optical figures are invented approximations with
// the shape and the order of size of the real thing, none measured: an artist's own drawdowns replace them
// (measured_pigment.h).
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "materials/optics/material.h"

namespace rakelight {

/// Absorption and scattering that a pigment's curves allow as well, within their uncertainty.
struct PigmentDraw {
    SampledSpectrum absorption_m2_per_g;
    SampledSpectrum scattering_m2_per_g;
};

/// A powder that is mixed into a base.
struct Pigment {
    std::string name;        ///< Colour Index generic name, such as "PB28", or the artist's own
    std::string usual_name;  ///< "cobalt blue"
    Provenance provenance = Provenance::invented;

    /// Kubelka-Munk K and S that a gram in a cubic metre adds per metre: m2/g, >= 0.
    SampledSpectrum absorption_m2_per_g;
    SampledSpectrum scattering_m2_per_g;
    std::vector<PigmentDraw> draws;  ///< drawn at random; empty = its curves are taken as exact
    double density_g_per_cm3 = 4;

    /// Most that is worth adding, as a share of the mass of cement, or of resin with hardener.
    double cement_limit = 0.10;
    double epoxy_limit = 0.06;
    std::string cement_limit_source;
    std::string epoxy_limit_source;

    std::string cement_warning;  ///< why it is not for cement; empty = it stands the alkali
    std::string dust_warning;    ///< what its dust may do; empty = as any fine dust
};

/// The cap on all pigments of a cement together: ASTM C979 and EN 12878, 10 % of the mass of cement.
inline constexpr double kCementTotalLimit = 0.10;
/// The same of resin with hardener: common practice, no published source.
inline constexpr double kEpoxyTotalLimit = 0.06;

/// Null when there is no such pigment.
const Pigment* find_pigment(std::string_view name);

/// In the order of the table.
const std::vector<Pigment>& pigments();
std::vector<std::string> pigment_names();

}  // namespace rakelight
