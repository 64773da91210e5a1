// A picture of light all round cut into rectangles, the smaller the more light comes from them (after the
// median cut of Debevec 2005, "A Median Cut Algorithm for Light Probe Sampling", with another measure: what
// is cut is the rectangle with most light times breadth, where the sum of that becomes least).
#pragma once

#include <functional>
#include <vector>

#include "scene/surround/surround_picture.h"

namespace rakelight {

struct SurroundRectangle {
    int left = 0, top = 0, columns = 0, rows = 0;
};

/// At most so many rectangles that together cover the picture. Light of pixels for which `counts` is false is
/// left out of account.
std::vector<SurroundRectangle> rectangles(const SurroundPicture& picture,
                                          const std::function<bool(std::size_t pixel)>& counts,
                                          std::size_t most);

}  // namespace rakelight
