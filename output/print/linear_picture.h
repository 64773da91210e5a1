// Three planes of linear light, white of the print = 1: a film on its way to a print.
#pragma once

#include <array>
#include <cstddef>
#include <vector>

namespace rakelight {

/// Linear light on the sRGB primaries. Row-major, first row at the top; `plane[0]` is red.
struct LinearPicture {
    int width = 0;
    int height = 0;
    std::array<std::vector<float>, 3> plane;
};

/// Luminance of linear sRGB, the white's = 1 (second row of the matrix of IEC 61966-2-1).
constexpr float luminance(float r, float g, float b) {
    return 0.212639f * r + 0.715169f * g + 0.072192f * b;
}

}  // namespace rakelight
