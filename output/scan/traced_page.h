// Lines on a sheet of paper as a program of its own sees them (output/find_lines, OpenCV).
#pragma once

#include <array>
#include <string>
#include <vector>

#include "output/marks/byte_picture.h"

namespace rakelight {

/// Where the sheet lies in the picture.
struct PagePlace {
    std::array<glm::dvec2, 4> corners_px{};  ///< upper left, upper right, lower right, lower left
    glm::dvec2 size_mm{};
};

/// A chain of points between two nodes; the same node in a loop.
struct TracedChain {
    std::string ink;
    bool outline = false;
    int from = 0, to = 0;
    std::vector<glm::dvec2> points_mm;  ///< from the sheet's upper left corner, y down; nodes included
};

/// A spot of a felt-tip.
struct InkSpot {
    std::string ink;
    glm::dvec2 at_mm{};
};

struct TracedPage {
    double px_per_mm = 0;  ///< of the photograph
    double pixel_mm = 0;   ///< of the rectified sheet that was traced
    std::vector<TracedChain> chains;
    std::vector<InkSpot> spots;
};

/// `ink`: colour of outlines. \throws std::runtime_error with what is missing when the program is not there.
TracedPage trace_page(const BytePicture& picture, const PagePlace& place, const std::string& ink);

}  // namespace rakelight
