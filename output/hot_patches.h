// Where a panel mirrors far more than its own light: hot pixels gathered to patches as an eye sees them.
#pragma once

#include <functional>
#include <vector>

#include "output/panel_glare.h"

namespace rakelight {

/// Gets a patch, to be completed, and its hot pixels.
using SeePatch = std::function<void(HotPatch&, const std::vector<std::size_t>&)>;

/// Patches that mirror over `limits.hot` times the body, the largest first; their `group` is left to `see`.
/// `mirrored`, `body`: cd/m2 of every pixel. `reach`: hot pixels no farther apart than twice that are one
/// patch.
std::vector<HotPatch> hot_patches(const Film& film, const std::vector<SeenPatch>& seen,
                                  const std::vector<double>& mirrored, const std::vector<double>& body,
                                  const GlareLimits& limits, int reach, const SeePatch& see);

}  // namespace rakelight
