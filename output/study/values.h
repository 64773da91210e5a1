// A picture in few values: lightnesses brought to the few levels that lie nearest to them in the mean of
// squares (Lloyd, "Least squares quantization in PCM", IEEE Trans. Inf. Theory 28, 1982; found exactly, level
// by level).
#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace rakelight {

/// Levels of L*, dark first, for lightnesses 0..100 taken in steps of half. Fewer than `count` where there
/// are not so many lightnesses. Empty for none.
std::vector<double> value_levels(std::span<const float> lightness, std::size_t count);

/// Which level lies nearest, the darker of two as near. `levels`: not empty, rising.
std::size_t nearest_level(std::span<const double> levels, double lightness);

}  // namespace rakelight
