// Sums over rectangles of pixels in constant time: a summed-area table (Crow 1984, "Summed-Area Tables for
// Texture Mapping").
#pragma once

#include <glm/glm.hpp>
#include <vector>

namespace rakelight {

/// Two sums side by side; `at` is filled with those of everything left of and above a corner.
class PixelSums {
  public:
    PixelSums(int width, int height)
        : width_(width), sums_(static_cast<std::size_t>(width + 1) * static_cast<std::size_t>(height + 1)) {}
    glm::dvec2& at(int x, int y) {
        return sums_[static_cast<std::size_t>(y) * static_cast<std::size_t>(width_ + 1) +
                     static_cast<std::size_t>(x)];
    }
    /// Of pixels from `low` up to, without, `end`.
    glm::dvec2 over(glm::ivec2 low, glm::ivec2 end) {
        return at(end.x, end.y) - at(low.x, end.y) - at(end.x, low.y) + at(low.x, low.y);
    }

  private:
    int width_;
    std::vector<glm::dvec2> sums_;
};

}  // namespace rakelight
