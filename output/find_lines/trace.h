// A skeleton of one pixel's width as chains of pixels between nodes: where lines end and where three or more
// meet.
#pragma once

#include <opencv2/core.hpp>
#include <vector>

namespace rakelight::lines {

struct Chain {
    int from = 0, to = 0;                ///< nodes; the same in a loop
    std::vector<cv::Point2d> points_px;  ///< nodes at both ends included, in pixels from the picture's corner
};

/// Nodes count from 0.
std::vector<Chain> trace(const cv::Mat& skeleton);

}  // namespace rakelight::lines
