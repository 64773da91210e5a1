// find-marks PICTURE.ppm: square marks of the predefined dictionary 5X5_50 in a picture, by OpenCV's aruco
// (Garrido-Jurado et al., "Automatic generation and detection of highly reliable fiducial markers under
// occlusion", Pattern Recognition 47, 2014). Prints a line of JSON for each: {"mark": number, "corners":
// [[x, y], ..]}, in pixels from the picture's upper left corner, clockwise from the upper left corner of the
// mark as it is printed.
#include <algorithm>
#include <cstdio>
#include <opencv2/aruco.hpp>
#include <opencv2/imgproc.hpp>
#include <stdexcept>

#include "output/find_chart/read_ppm.h"

namespace {

/// The smallest side of a mark that is looked for, in pixels: seven squares of two pixels.
constexpr double kLeastSide_px = 14;

cv::Ptr<cv::aruco::DetectorParameters> how(const cv::Mat& grey) {
    const auto p = cv::aruco::DetectorParameters::create();
    p->minMarkerPerimeterRate = std::min(0.03, 4 * kLeastSide_px / std::max(grey.cols, grey.rows));
    p->adaptiveThreshWinSizeMin = 5;
    p->adaptiveThreshWinSizeMax = 85;
    p->adaptiveThreshWinSizeStep = 16;
    p->cornerRefinementMethod = cv::aruco::CORNER_REFINE_CONTOUR;
    return p;
}

/// The mean length of the sides.
double side_px(const std::vector<cv::Point2f>& corners) {
    double sum = 0;
    for (std::size_t i = 0; i < 4; ++i) sum += cv::norm(corners[(i + 1) % 4] - corners[i]) / 4;
    return sum;
}

/// Corners to a part of a pixel, looked for no further than half a square of the mark.
void refine(const cv::Mat& grey, std::vector<cv::Point2f>& corners) {
    const int reach = std::clamp(static_cast<int>(side_px(corners) / 14), 2, 9);
    cv::cornerSubPix(grey, corners, {reach, reach}, {-1, -1},
                     {cv::TermCriteria::EPS | cv::TermCriteria::COUNT, 40, 0.01});
}

void print(int number, const std::vector<cv::Point2f>& corners) {
    std::printf("{\"mark\": %d, \"corners\": ", number);
    for (std::size_t i = 0; i < 4; ++i)  // OpenCV counts from the middle of the first pixel
        std::printf("%s[%.3f, %.3f]", i == 0 ? "[" : ", ", static_cast<double>(corners[i].x) + 0.5,
                    static_cast<double>(corners[i].y) + 0.5);
    std::printf("]}\n");
}

void find(const cv::Mat& picture) {
    cv::Mat grey;
    cv::cvtColor(picture, grey, cv::COLOR_BGR2GRAY);
    std::vector<std::vector<cv::Point2f>> corners;
    std::vector<int> numbers;
    cv::aruco::detectMarkers(grey, cv::aruco::getPredefinedDictionary(cv::aruco::DICT_5X5_50), corners,
                             numbers, how(grey));
    for (std::size_t i = 0; i < numbers.size(); ++i) {
        refine(grey, corners[i]);
        print(numbers[i], corners[i]);
    }
}

}  // namespace

int main(int argc, char** argv) try {
    if (argc != 2) throw std::runtime_error("expected a picture");
    find(rakelight::read_ppm(argv[1]));
    return 0;
} catch (const std::exception& e) {
    std::fprintf(stderr, "find-marks: %s\n", e.what());
    return 2;
}
