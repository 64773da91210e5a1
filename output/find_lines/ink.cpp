#include "output/find_lines/ink.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>

namespace rakelight::lines {
namespace {

// Common practice, no published source: found on simulated pages of tests/output/scan.
constexpr double kGrain_mm = 0.12;     // blur that takes off paper's grain
constexpr double kInkBlur_mm = 0.3;    // over which colour is averaged: JPEG keeps it at half the fineness
constexpr double kInkReach_mm = 0.35;  // over which a line has one colour
constexpr double kGreyRatio = 0.66;    // least over greatest darkness of a grey line
constexpr double kLeastParting = 0.45, kLeastShare = 0.02;
constexpr double kLeastDark = 12;  // of 255
constexpr double kSpotReach_mm = 26, kSpotOpening_mm = 2.4, kLeastSpot_mm2 = 8;
constexpr double kSpotDark = 50, kSpotRatio = 0.6;
constexpr double kSpotScale = 2;       // pixels a millimetre
constexpr double kTable_mm = 1.5;      // of what lies round the paper may be seen at its edge
constexpr double kBlock_mm = 14;       // of the adaptive threshold
constexpr double kLeastLine_mm = 1.5;  // shorter marks are dirt
constexpr double kHole_mm2 = 0.5;      // within a line

int odd(double px) {
    return 2 * static_cast<int>(std::lround(px / 2)) + 1;
}

cv::Mat blurred(const cv::Mat& in, double sigma_px) {
    cv::Mat out;
    cv::GaussianBlur(in, out, {0, 0}, std::max(sigma_px, 0.5));
    return out;
}

/// Median, and the standard deviation that the median distance from it gives.
std::pair<double, double> spread(const cv::Mat& bytes) {
    std::array<long long, 256> count{};
    for (int y = 0; y < bytes.rows; ++y)
        for (int x = 0; x < bytes.cols; ++x) ++count[bytes.at<unsigned char>(y, x)];
    const auto middle = [&](const std::array<long long, 256>& of) {
        long long half = static_cast<long long>(bytes.total()) / 2;
        for (int v = 0; v < 256; ++v)
            if ((half -= of[static_cast<std::size_t>(v)]) < 0) return v;
        return 255;
    };
    const int median = middle(count);
    std::array<long long, 256> away{};
    for (int v = 0; v < 256; ++v)
        away[static_cast<std::size_t>(std::abs(v - median))] += count[static_cast<std::size_t>(v)];
    return {median, 1.4826 * (middle(away) + 0.5)};
}

int hue_ink(double r, double g, double b) {
    const double top = std::max({r, g, b}), low = std::min({r, g, b}), span = std::max(top - low, 1e-9);
    const double sixth = top == r ? (g - b) / span : top == g ? 2 + (b - r) / span : 4 + (r - g) / span;
    const double deg = 60 * (sixth < 0 ? sixth + 6 : sixth);
    if (deg < 16 || deg >= 338) return 1;
    return deg < 45 ? 2 : deg < 72 ? 3 : deg < 170 ? 4 : deg < 255 ? 5 : 6;
}

/// Keeps components that hold a seed and reach far enough.
cv::Mat kept(const cv::Mat& mask, const cv::Mat& seeds, double least_px) {
    cv::Mat labels, stats, middles;
    const int n = cv::connectedComponentsWithStats(mask, labels, stats, middles, 8, CV_32S);
    std::vector<unsigned char> keep(static_cast<std::size_t>(n), 0);
    for (int y = 0; y < mask.rows; ++y)
        for (int x = 0; x < mask.cols; ++x)
            if (seeds.at<unsigned char>(y, x)) keep[static_cast<std::size_t>(labels.at<int>(y, x))] = 255;
    keep[0] = 0;
    for (int i = 1; i < n; ++i)
        if (std::hypot(stats.at<int>(i, cv::CC_STAT_WIDTH), stats.at<int>(i, cv::CC_STAT_HEIGHT)) < least_px)
            keep[static_cast<std::size_t>(i)] = 0;
    cv::Mat out(mask.size(), CV_8U);
    for (int y = 0; y < mask.rows; ++y)
        for (int x = 0; x < mask.cols; ++x)
            out.at<unsigned char>(y, x) = keep[static_cast<std::size_t>(labels.at<int>(y, x))];
    return out;
}

/// Closes pinholes, which thinning would run round.
cv::Mat filled(const cv::Mat& mask, double hole_px2) {
    cv::Mat closed;
    cv::morphologyEx(mask, closed, cv::MORPH_CLOSE, cv::getStructuringElement(cv::MORPH_ELLIPSE, {3, 3}));
    cv::Mat labels, stats, middles;
    const int n = cv::connectedComponentsWithStats(255 - closed, labels, stats, middles, 4, CV_32S);
    for (int i = 1; i < n; ++i) {
        if (stats.at<int>(i, cv::CC_STAT_AREA) >= hole_px2) continue;
        const cv::Rect box(stats.at<int>(i, cv::CC_STAT_LEFT), stats.at<int>(i, cv::CC_STAT_TOP),
                           stats.at<int>(i, cv::CC_STAT_WIDTH), stats.at<int>(i, cv::CC_STAT_HEIGHT));
        closed(box).setTo(255, labels(box) == i);
    }
    return closed;
}

std::pair<cv::Mat, cv::Mat> least_and_most(const Darkness& dark, double sigma_px) {
    cv::Mat least, most;
    const std::array<cv::Mat, 3> soft{blurred(dark.of[0], sigma_px), blurred(dark.of[1], sigma_px),
                                      blurred(dark.of[2], sigma_px)};
    cv::min(soft[0], soft[1], least);
    cv::min(least, soft[2], least);
    cv::max(soft[0], soft[1], most);
    cv::max(most, soft[2], most);
    return {least, most};
}

/// Where the paper is darker than round it by more than its grain.
cv::Mat all_lines(const Darkness& dark, double px_per_mm) {
    const cv::Mat most = least_and_most(dark, kGrain_mm * px_per_mm).second;
    const auto [paper, grain] = spread(most);
    const double low = std::max(kLeastDark, 3.5 * grain), high = std::max(1.8 * kLeastDark, 6 * grain);
    cv::Mat mask, seeds, even;
    cv::min(most, paper + 2 * high,
            even);  // so that what is very dark, or off the paper, shadows nothing beside it
    const int edge = static_cast<int>(std::lround(kTable_mm * px_per_mm));
    cv::rectangle(even, {0, 0}, {even.cols - 1, even.rows - 1}, paper, 2 * edge);
    cv::adaptiveThreshold(even, mask, 255, cv::ADAPTIVE_THRESH_MEAN_C, cv::THRESH_BINARY,
                          odd(kBlock_mm * px_per_mm), -low);
    cv::threshold(most, seeds, paper + high, 255, cv::THRESH_BINARY);
    return kept(mask, seeds, kLeastLine_mm * px_per_mm);
}

/// The value of 0..200 that parts coloured from grey pixels of lines: midway between the medians of both,
/// where there are both. JPEG keeps colour so coarsely that pencil beside a felt-tip is tinged by it.
double parting(const cv::Mat& ratio, const cv::Mat& lines) {
    std::vector<unsigned char> grey, coloured;
    for (int y = 0; y < ratio.rows; ++y)
        for (int x = 0; x < ratio.cols; ++x)
            if (lines.at<unsigned char>(y, x)) {
                const unsigned char r = ratio.at<unsigned char>(y, x);
                (r > 200 * kGreyRatio ? grey : coloured).push_back(r);
            }
    if (grey.empty() || coloured.size() < kLeastShare * static_cast<double>(grey.size()))
        return 200 * kGreyRatio;
    const auto median = [](std::vector<unsigned char>& values) {
        const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
        std::nth_element(values.begin(), middle, values.end());
        return static_cast<double>(*middle);
    };
    return std::clamp((median(grey) + median(coloured)) / 2, 200 * kLeastParting, 200 * kGreyRatio);
}

/// Grey ink. Where it lies under colour it is not seen.
cv::Mat grey_of(const Darkness& ink, const cv::Mat& lines, double px_per_mm) {
    const auto [least, most] = least_and_most(ink, kInkBlur_mm * px_per_mm);
    cv::Mat dull, dark, dull_sum, dark_sum;  // weighed by darkness, so that fringes of a line count little
    cv::multiply(least, most, dull, 1.0, CV_32F);
    cv::multiply(most, most, dark, 1.0, CV_32F);
    dull_sum = blurred(dull, kInkReach_mm * px_per_mm);
    dark_sum = blurred(dark, kInkReach_mm * px_per_mm);
    cv::Mat ratio, ratio8;
    cv::divide(dull_sum, dark_sum + 1e-3, ratio);
    ratio.convertTo(ratio8, CV_8U, 200);
    return (ratio8 > parting(ratio8, lines)) & lines;
}

}  // namespace

Darkness darkness(const cv::Mat& bgr, double px_per_mm, double reach_mm) {
    const int side = odd(reach_mm * px_per_mm);
    const cv::Mat square = cv::getStructuringElement(cv::MORPH_RECT, {side, side});
    std::array<cv::Mat, 3> channels;
    cv::split(bgr, channels.data());
    Darkness dark;
    for (std::size_t c = 0; c < 3; ++c) {
        const cv::Mat soft = blurred(channels[2 - c], 0.6 * kGrain_mm * px_per_mm);
        cv::Mat paper, ratio;
        cv::morphologyEx(soft, paper, cv::MORPH_CLOSE, square);
        paper = cv::max(paper, 1);
        cv::divide(soft, paper, ratio, 255);
        dark.of[c] = 255 - ratio;
    }
    return dark;
}

int ink_of(const Darkness& dark, const cv::Mat& mask) {
    std::array<double, 3> d{};
    for (std::size_t c = 0; c < 3; ++c) d[c] = cv::mean(dark.of[c], mask)[0];
    if (*std::min_element(d.begin(), d.end()) > kGreyRatio * *std::max_element(d.begin(), d.end())) return 0;
    return hue_ink(255 - d[0], 255 - d[1], 255 - d[2]);
}

std::vector<Spot> spots(const cv::Mat& bgr, double px_per_mm, cv::Mat& covered) {
    cv::Mat small;
    const double scale = kSpotScale / px_per_mm;
    cv::resize(bgr, small, {}, scale, scale, cv::INTER_AREA);
    const Darkness dark = darkness(small, kSpotScale, kSpotReach_mm);
    const auto [least, most] = least_and_most(dark, 0.5);
    cv::Mat mask = (most > kSpotDark) & (least < kSpotRatio * most), opened, labels, stats, middles;
    const int side = odd(kSpotOpening_mm * kSpotScale);
    cv::morphologyEx(mask, opened, cv::MORPH_OPEN,
                     cv::getStructuringElement(cv::MORPH_ELLIPSE, {side, side}));
    std::vector<Spot> found;
    const int n = cv::connectedComponentsWithStats(opened, labels, stats, middles, 8, CV_32S);
    for (int i = 1; i < n; ++i) {
        const double area = stats.at<int>(i, cv::CC_STAT_AREA) / (kSpotScale * kSpotScale);
        if (area < kLeastSpot_mm2) {
            opened.setTo(0, labels == i);
            continue;
        }
        found.push_back({ink_of(dark, labels == i),
                         {(middles.at<double>(i, 0) + 0.5) / scale, (middles.at<double>(i, 1) + 0.5) / scale},
                         area});
    }
    cv::dilate(opened, opened, cv::getStructuringElement(cv::MORPH_ELLIPSE, {5, 5}));
    cv::resize(opened, covered, bgr.size(), 0, 0, cv::INTER_NEAREST);
    return found;
}

Masks masks(const Darkness& dark, double px_per_mm, int outlines_ink, const cv::Mat& spots) {
    const cv::Mat lines = all_lines(dark, px_per_mm), grey = grey_of(dark, lines, px_per_mm);
    Masks out;
    if (outlines_ink == 0) {
        out.outlines = grey.clone();
    } else {
        const cv::Mat coloured = lines & ~grey & ~spots;
        out.outlines = cv::Mat::zeros(lines.size(), CV_8U);
        const std::array<cv::Mat, 3> soft{blurred(dark.of[0], kInkBlur_mm * px_per_mm),
                                          blurred(dark.of[1], kInkBlur_mm * px_per_mm),
                                          blurred(dark.of[2], kInkBlur_mm * px_per_mm)};
        const auto lit = [&](std::size_t c, int y, int x) { return 255.0 - soft[c].at<unsigned char>(y, x); };
        for (int y = 0; y < lines.rows; ++y)
            for (int x = 0; x < lines.cols; ++x)
                if (coloured.at<unsigned char>(y, x) &&
                    hue_ink(lit(0, y, x), lit(1, y, x), lit(2, y, x)) == outlines_ink)
                    out.outlines.at<unsigned char>(y, x) = 255;
    }
    const auto clean = [&](const cv::Mat& mask) {
        const cv::Mat whole = filled(mask, kHole_mm2 * px_per_mm * px_per_mm);
        return kept(whole, whole, kLeastLine_mm * px_per_mm);
    };
    out.outlines = clean(out.outlines);
    cv::Mat taken;  // with the fringe that the camera gives a line
    cv::dilate(out.outlines, taken, cv::getStructuringElement(cv::MORPH_ELLIPSE, {3, 3}));
    out.others = clean(lines & ~taken & ~spots);
    return out;
}

}  // namespace rakelight::lines
