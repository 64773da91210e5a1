// Ink on paper: a rectified picture freed of uneven light, and what on it is a line, of which colour, and
// what a spot of a felt-tip.
#pragma once

#include <array>
#include <opencv2/core.hpp>
#include <string>
#include <vector>

namespace rakelight::lines {

/// Colours of ink: grey and black, then hues.
inline constexpr std::array<const char*, 7> kInks{"black", "red",  "orange", "yellow",
                                                  "green", "blue", "violet"};

/// How dark each channel is against the paper round it, 0..255; red, green, blue.
struct Darkness {
    std::array<cv::Mat, 3> of;  ///< 8 bits each
};

/// Divides each channel by its closing with a square of `reach_mm`, which leaves out what is darker and
/// narrower than that: light and shadows go, lines stay (Serra, Image Analysis and Mathematical Morphology,
/// 1982, ch. 12, the closing's residue).
Darkness darkness(const cv::Mat& bgr, double px_per_mm, double reach_mm);

/// A spot of a felt-tip.
struct Spot {
    int ink = 0;
    cv::Point2d at_px;
    double area_mm2 = 0;
};
std::vector<Spot> spots(const cv::Mat& bgr, double px_per_mm, cv::Mat& covered);

/// Which of `kInks` the mean of a mask has.
int ink_of(const Darkness& dark, const cv::Mat& mask);

struct Masks {
    cv::Mat outlines, others;  ///< 0 or 255
};

/// Lines of the ink of outlines, and those of any other, by a threshold that adapts to the paper and to its
/// grain. `spots`: where no coloured line is looked for.
Masks masks(const Darkness& dark, double px_per_mm, int outlines_ink, const cv::Mat& spots);

}  // namespace rakelight::lines
