// find-chart PICTURE.ppm CONTRAST: where charts of 24 patches may lie in a picture, by OpenCV's mcc. CONTRAST
// is how far a patch has to stand out, in steps of 8 bits. Prints a line of JSON for each: [[x, y], [x, y],
// [x, y], [x, y]], pixels, the outer corners of the four corner patches going round; which of them is dark
// skin, and whether it is a chart at all, is for the caller to judge.
#include <cstdio>
#include <opencv2/mcc.hpp>
#include <stdexcept>
#include <string>

#include "output/find_chart/read_ppm.h"

namespace {

/// The corner patches within the box of mcc's own model of the chart, which is 16.75 by 11.25 with patches
/// from 0.25 to 16.5 and to 11.
void print_corners(const std::vector<cv::Point2f>& box) {
    const std::vector<cv::Point2f> model{{0, 0}, {16.75f, 0}, {16.75f, 11.25f}, {0, 11.25f}};
    const std::vector<cv::Point2f> patches{{0.25f, 0.25f}, {16.5f, 0.25f}, {16.5f, 11}, {0.25f, 11}};
    std::vector<cv::Point2f> corners;
    cv::perspectiveTransform(patches, corners, cv::getPerspectiveTransform(model, box));
    for (std::size_t i = 0; i < corners.size(); ++i)
        std::printf("%s[%.2f, %.2f]%s", i == 0 ? "[" : ", ", static_cast<double>(corners[i].x),
                    static_cast<double>(corners[i].y), i + 1 == corners.size() ? "]\n" : "");
}

void find(const cv::Mat& picture, double contrast) {
    const auto how = cv::mcc::DetectorParameters::create();
    how->adaptiveThreshConstant = contrast;
    const auto detector = cv::mcc::CCheckerDetector::create();
    if (!detector->process(picture, cv::mcc::MCC24, 3, false, how)) return;
    for (const auto& chart : detector->getListColorChecker()) print_corners(chart->getBox());
}

}  // namespace

int main(int argc, char** argv) try {
    if (argc != 3) throw std::runtime_error("expected a picture and a contrast");
    find(rakelight::read_ppm(argv[1]), std::stod(argv[2]));
    return 0;
} catch (const std::exception& e) {
    std::fprintf(stderr, "find-chart: %s\n", e.what());
    return 2;
}
