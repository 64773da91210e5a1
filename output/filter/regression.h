// First-order regression: light is taken to change evenly with what is seen (normal, depth) and across the
// picture, which keeps arrises and shadows that an average of neighbours would wash out. Source: Bitterli,
// Rousselle, Moon et al., Computer Graphics Forum 35 (2016) 107.
#pragma once

#include <array>

#include "output/filter/alike.h"

namespace rakelight::filter {

/// XYZ over the colour of the eight pixels from (x, y) on, which are eight `eight` of row `row` of the tile
/// that `weights` are of: fitted to the neighbours' light by the samples of one half alone. `second`: of the
/// second half.
std::array<Floats, 3> regressed(const BodyLight& light, Weights& weights, int row, int eight, int x, int y,
                                bool second);

}  // namespace rakelight::filter
