// Glass recipes: sheets fused into one shade, and a ladder of shades between two glasses.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "materials/optics/material.h"

namespace rakelight {

/// Thickness that molten sheet tends to, by surface tension against weight: 1/4 in, common practice of
/// fusing.
inline constexpr double kFusedThickness_mm = 6;

/// How a stack is fired: `free` to a full fuse, or `dammed` (or fired low) so that it cannot spread.
enum class Firing { free, dammed };

/// One sheet of a stack, before firing.
struct StackedSheet {
    const Material* glass = nullptr;
    double thickness_mm = 0;
};

/// A stack's size after firing.
struct FusedSize {
    double thickness_mm = 0;
    double area_growth = 1;  ///< area after firing over area before; volume is kept
};

/// A free stack of more than 6 mm spreads to 6 mm. A thinner one draws in at its rim only, and keeps its
/// thickness where pieces are cut: common practice, no published source.
FusedSize fused_size(double stacked_mm, Firing firing);

/// The shade of a stack listed face first. Translucent sheets thin as the stack spreads; an opaque sheet
/// hides all under it. The face is that of the first sheet; tone spread, density and cost are means by
/// thickness. \throws std::invalid_argument when the stack is empty, a thickness is not above 0, a material
/// is no glass or has leaf or haze, or a sheet is itself a stack that rests on an opaque one.
Material fuse(std::string name, std::span<const StackedSheet> stack, Firing firing);

/// `steps` shades from one glass to another, both ends included, as frit of the two mixed by volume: K and S
/// are linear in the share (Duncan 1940, Proc. Phys. Soc. 52, 390), so that equal steps are equal ratios of
/// transmittance. Opaque glasses mix by K/S, as if they scattered alike. Names are NAME-1 to NAME-steps.
/// \throws std::invalid_argument unless there are 2 to 99 steps and both are glass, both translucent and of
/// one layer or both opaque.
std::vector<Material> shade_ladder(const std::string& name, const Material& from, const Material& to,
                                   int steps);

}  // namespace rakelight
