// How far two fields stand apart for an eye, with the light that faces mirror and without it.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "output/glare/measures/panel_glare.h"
#include "scene/laying/laying.h"
#include "scene/model/field.h"

namespace rakelight {

/// Contrast of two luminances, 0..1: (brighter - darker) / brighter, as CIE 19.2 defines that of a task and
/// its background (from memory). 0 when both are dark.
double contrast_of(double a_cd_per_m2, double b_cd_per_m2);

struct FieldContrast {
    std::string one, other;
    double body = 0;  ///< contrast of what lies below the faces
    double seen = 0;  ///< with what they mirror
    /// Share of the contrast that mirrored light leaves; 1 when there is none to lose.
    double kept() const { return body > 0 ? seen / body : 1; }
};

/// Of pairs of fields by name; those not seen are left out.
std::vector<FieldContrast> field_contrasts(const PanelGlare& glare, const std::vector<Field>& fields,
                                           const std::vector<std::pair<std::string, std::string>>& pairs);

/// The pairs to report when the layout names none: fields that lie side by side, the longest borders first.
std::vector<std::pair<std::string, std::string>> bordering_pairs(const std::vector<Field>& fields,
                                                                 const Laying& laying, std::size_t most = 8);

}  // namespace rakelight
