// Sums over rectangles of pixels in constant time: a summed-area table (Crow 1984, "Summed-Area Tables for
// Texture Mapping").
#pragma once

#include <glm/glm.hpp>
#include <vector>

namespace rakelight {

/// Sums over what lies near a pixel of a picture, two side by side.
class PixelSums {
  public:
    /// `of(i)`: what is summed of pixel i, row by row, as a glm::dvec2.
    template <class Of>
    PixelSums(int width, int height, Of of)
        : width_(width),
          height_(height),
          sums_(static_cast<std::size_t>(width + 1) * static_cast<std::size_t>(height + 1)) {
        for (int y = 0; y < height; ++y) {
            glm::dvec2 row(0);
            for (int x = 0; x < width; ++x) {
                row += of(static_cast<std::size_t>(y) * static_cast<std::size_t>(width) +
                          static_cast<std::size_t>(x));
                at(x + 1, y + 1) = at(x + 1, y) + row;
            }
        }
    }

    /// Over the pixels within `reach` of pixel i each way.
    glm::dvec2 near(std::size_t i, int reach) const {
        const auto width = static_cast<std::size_t>(width_);
        const glm::ivec2 pixel(static_cast<int>(i % width), static_cast<int>(i / width));
        const glm::ivec2 low = glm::max(pixel - reach, 0),
                         end = glm::min(pixel + reach + 1, glm::ivec2(width_, height_));
        return at(end.x, end.y) - at(low.x, end.y) - at(end.x, low.y) + at(low.x, low.y);
    }

  private:
    // Of everything left of and above a corner.
    std::size_t index(int x, int y) const {
        return static_cast<std::size_t>(y) * static_cast<std::size_t>(width_ + 1) +
               static_cast<std::size_t>(x);
    }
    glm::dvec2& at(int x, int y) { return sums_[index(x, y)]; }
    const glm::dvec2& at(int x, int y) const { return sums_[index(x, y)]; }

    int width_, height_;
    std::vector<glm::dvec2> sums_;
};

/// For every pixel the mean over those within `reach` each way: the first of the two sums over the second, 0
/// where that is 0.
template <class Of>
std::vector<double> local_means(int width, int height, int reach, Of of) {
    const PixelSums sums(width, height, of);
    std::vector<double> means(static_cast<std::size_t>(width) * static_cast<std::size_t>(height));
    for (std::size_t i = 0; i < means.size(); ++i) {
        const glm::dvec2 sum = sums.near(i, reach);
        means[i] = sum.y > 0 ? sum.x / sum.y : 0;
    }
    return means;
}

}  // namespace rakelight
