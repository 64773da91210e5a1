// Printed marks in a photograph, found by a program of its own (output/find_marks, OpenCV).
#pragma once

#include <array>
#include <vector>

#include "output/marks/byte_picture.h"

namespace rakelight {

struct SeenMark {
    int number = 0;
    std::array<glm::dvec2, 4> corners_px{};  ///< clockwise from its upper left corner as printed
};

/// Those of ours, by number. \throws std::runtime_error with what is missing when the program is not there.
std::vector<SeenMark> see_marks(const BytePicture& picture);

}  // namespace rakelight
