// The 24-patch chart: six columns and four rows of painted patches of known reflectance, the last row a grey
// scale. Source of the reflectances: N. Ohta 1997, as tabulated by the colour-science project (BSD-3-Clause);
// charts differ from it, and from one another by batch, by CIEDE2000 of about 1.
#pragma once

#include <array>
#include <glm/glm.hpp>
#include <string_view>

#include "materials/colour/sampled_spectrum.h"

namespace rakelight {

inline constexpr int kChartColumns = 6, kChartRows = 4;
inline constexpr std::size_t kChartPatches = 24;
inline constexpr std::size_t kFirstGrey = 18;  ///< white; five greys follow, each darker

struct ChartPatch {
    std::string_view name;
    SampledSpectrum reflectance;  ///< 0..1
};

/// Row by row, from dark skin to black.
const std::array<ChartPatch, kChartPatches>& chart24();

/// Side of a patch and its middle, where the field of patches runs from (0, 0), the outer corner of dark
/// skin, to (1, 1), the outer corner of black. Patches lie a tenth of their side apart: charts differ, and
/// the middle half of a patch is all that is read.
inline constexpr double kPatchGap = 0.1;
glm::dvec2 patch_side();
glm::dvec2 patch_middle(std::size_t patch);

}  // namespace rakelight
