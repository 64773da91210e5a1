// Pictures of one number a pixel, for laying a photograph on a picture.
#pragma once

#include <vector>

namespace rakelight {

/// Row-major, top row first.
struct Plane {
    int width = 0;
    int height = 0;
    std::vector<float> v;

    Plane() = default;
    Plane(int w, int h) : width(w), height(h), v(static_cast<std::size_t>(w) * static_cast<std::size_t>(h)) {}
    std::size_t at(int x, int y) const {
        return static_cast<std::size_t>(y) * static_cast<std::size_t>(width) + static_cast<std::size_t>(x);
    }
};

/// Mean of what has weight, by a Gaussian of standard deviation `sigma` pixels; 0 where nothing near has any.
Plane blurred(const Plane& plane, const Plane& weight, double sigma);

/// Each `factor` x `factor` pixels as one: means by weight, and the mean weight. What is left over at the
/// right and below is cut off.
Plane reduced(const Plane& plane, const Plane& weight, int factor);
Plane reduced_weight(const Plane& weight, int factor);

}  // namespace rakelight
