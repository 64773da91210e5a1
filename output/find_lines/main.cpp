// find-lines PICTURE.ppm CORNERS WIDTH HEIGHT INK: drawn lines on a sheet of paper in a photograph. CORNERS
// are eight numbers with commas, x and y of the sheet's upper left, upper right, lower right and lower left
// corner in pixels; WIDTH and HEIGHT are its size in mm; INK is the colour of outlines. Prints lines of JSON,
// lengths in mm from the sheet's upper left corner, y down:
//     {"px_per_mm": in the photograph, "pixel_mm": of the rectified sheet}
//     {"ink": colour, "outline": true or false, "from": node, "to": node, "points": [[x, y], ..]}
//     {"spot": colour, "at": [x, y]}
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <opencv2/imgproc.hpp>
#include <opencv2/ximgproc.hpp>
#include <sstream>
#include <stdexcept>

#include "output/find_chart/read_ppm.h"
#include "output/find_lines/ink.h"
#include "output/find_lines/trace.h"

namespace {

using namespace rakelight::lines;

constexpr double kReach_mm = 3.2;         // a line is narrower
constexpr double kEdge_mm = 2;            // a line that runs along the sheet's edge this near is the edge
constexpr double kLeast = 4, kMost = 12;  // pixels a millimetre of the rectified sheet
constexpr double kMostPixels = 16e6;

struct Request {
    std::vector<cv::Point2f> corners;
    double width_mm = 0, height_mm = 0;
    int ink = 0;
};

Request read_request(char** argv) {
    Request r;
    std::istringstream in(argv[2]);
    for (int i = 0; i < 4; ++i) {
        cv::Point2f p;
        char comma = 0;
        if (!(in >> p.x >> comma >> p.y)) throw std::runtime_error("expected eight numbers with commas");
        in >> comma;
        r.corners.push_back(p);
    }
    r.width_mm = std::stod(argv[3]);
    r.height_mm = std::stod(argv[4]);
    const auto ink = std::find(kInks.begin(), kInks.end(), std::string(argv[5]));
    if (ink == kInks.end() || !(r.width_mm > 0) || !(r.height_mm > 0))
        throw std::runtime_error("expected a size above 0 and a colour");
    r.ink = static_cast<int>(ink - kInks.begin());
    return r;
}

/// Pixels of the photograph for a millimetre of the sheet, mean over its sides.
double fineness(const Request& r) {
    double sum = 0;
    for (std::size_t i = 0; i < 4; ++i)
        sum += cv::norm(r.corners[(i + 1) % 4] - r.corners[i]) / (i % 2 == 0 ? r.width_mm : r.height_mm) / 4;
    return sum;
}

cv::Mat rectified(const cv::Mat& picture, const Request& r, double px_per_mm) {
    const cv::Size size(static_cast<int>(std::lround(r.width_mm * px_per_mm)),
                        static_cast<int>(std::lround(r.height_mm * px_per_mm)));
    const auto w = static_cast<float>(size.width), h = static_cast<float>(size.height);
    std::vector<cv::Point2f> from = r.corners, to{{0, 0}, {w, 0}, {w, h}, {0, h}};
    for (auto* points : {&from, &to})  // OpenCV counts from the middle of the first pixel
        for (cv::Point2f& p : *points) p -= cv::Point2f(0.5f, 0.5f);
    cv::Mat flat;
    cv::warpPerspective(picture, flat, cv::getPerspectiveTransform(from, to), size, cv::INTER_CUBIC,
                        cv::BORDER_REPLICATE);
    return flat;
}

void print(const Chain& chain, const char* ink, bool outline, int first_node, double px_per_mm) {
    std::printf("{\"ink\": \"%s\", \"outline\": %s, \"from\": %d, \"to\": %d, \"points\": [", ink,
                outline ? "true" : "false", first_node + chain.from, first_node + chain.to);
    for (std::size_t i = 0; i < chain.points_px.size(); ++i)
        std::printf("%s[%.4f, %.4f]", i == 0 ? "" : ", ", chain.points_px[i].x / px_per_mm,
                    chain.points_px[i].y / px_per_mm);
    std::printf("]}\n");
}

cv::Mat without_edge(const cv::Mat& mask, double px_per_mm) {
    const int edge = static_cast<int>(std::lround(kEdge_mm * px_per_mm));
    cv::Mat inner = cv::Mat::zeros(mask.size(), CV_8U);
    if (mask.cols <= 2 * edge || mask.rows <= 2 * edge) return inner;
    const cv::Rect box(edge, edge, mask.cols - 2 * edge, mask.rows - 2 * edge);
    mask(box).copyTo(inner(box));
    return inner;
}

int print_chains(const cv::Mat& mask, const Darkness& dark, double px_per_mm, int ink, bool outline,
                 int first_node) {
    cv::Mat skeleton;
    cv::ximgproc::thinning(mask, skeleton, cv::ximgproc::THINNING_GUOHALL);
    int nodes = 0;
    for (const Chain& chain : trace(skeleton)) {
        int seen = ink;
        if (!outline) {
            cv::Mat along = cv::Mat::zeros(mask.size(), CV_8U);
            std::vector<cv::Point> points(chain.points_px.begin(), chain.points_px.end());
            const cv::Rect box = cv::boundingRect(points) & cv::Rect(0, 0, mask.cols, mask.rows);
            cv::polylines(along, points, false, 255);
            Darkness part{{dark.of[0](box), dark.of[1](box), dark.of[2](box)}};
            seen = ink_of(part, along(box));
        }
        print(chain, kInks[static_cast<std::size_t>(seen)], outline, first_node, px_per_mm);
        nodes = std::max({nodes, chain.from + 1, chain.to + 1});
    }
    return first_node + nodes;
}

void find(const cv::Mat& picture, const Request& request) {
    const double seen = fineness(request);
    const double area = request.width_mm * request.height_mm;
    const double px_per_mm = std::min(std::clamp(1.15 * seen, kLeast, kMost), std::sqrt(kMostPixels / area));
    std::printf("{\"px_per_mm\": %.4f, \"pixel_mm\": %.5f}\n", seen, 1 / px_per_mm);
    const cv::Mat flat = rectified(picture, request, px_per_mm);
    cv::Mat covered;
    for (const Spot& spot : spots(flat, px_per_mm, covered))
        std::printf("{\"spot\": \"%s\", \"at\": [%.2f, %.2f]}\n", kInks[static_cast<std::size_t>(spot.ink)],
                    spot.at_px.x / px_per_mm, spot.at_px.y / px_per_mm);
    const Darkness dark = darkness(flat, px_per_mm, kReach_mm);
    const Masks drawn = masks(dark, px_per_mm, request.ink, covered);
    const int nodes =
        print_chains(without_edge(drawn.outlines, px_per_mm), dark, px_per_mm, request.ink, true, 0);
    print_chains(without_edge(drawn.others, px_per_mm), dark, px_per_mm, 0, false, nodes);
}

}  // namespace

int main(int argc, char** argv) try {
    if (argc != 6) throw std::runtime_error("expected a picture, corners, a width, a height and a colour");
    find(rakelight::read_ppm(argv[1]), read_request(argv));
    return 0;
} catch (const std::exception& e) {
    std::fprintf(stderr, "find-lines: %s\n", e.what());
    return 2;
}
