// A padded plane: one number of each pixel, and of a rim round the picture that belongs to nothing, so that
// no loop over neighbours asks where the picture ends.
#pragma once

#include <cstddef>
#include <vector>

#include "materials/maths/lanes.h"

namespace rakelight::filter {

/// Pixels of the rim: as far as a filter reaches, and what a last eight lanes may overhang.
inline constexpr int kRim_px = 24;

class Plane {
  public:
    Plane(int width, int height)
        : stride_(width + 2 * kRim_px),
          values_(static_cast<std::size_t>(stride_) * static_cast<std::size_t>(height + 2 * kRim_px), 0.0f) {}

    /// Of the pixel (x, y), which may lie in the rim.
    float& at(int x, int y) { return values_[place(x, y)]; }
    float at(int x, int y) const { return values_[place(x, y)]; }

    /// The eight pixels from (x, y) on.
    Floats eight(int x, int y) const {
        Floats v;
        __builtin_memcpy(&v, &values_[place(x, y)], sizeof(v));
        return v;
    }

  private:
    std::size_t place(int x, int y) const {
        return static_cast<std::size_t>(static_cast<std::ptrdiff_t>(y + kRim_px) * stride_ + x + kRim_px);
    }

    std::ptrdiff_t stride_;
    std::vector<float> values_;
};

}  // namespace rakelight::filter
