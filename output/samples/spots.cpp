#include "output/samples/spots.h"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>

#include "materials/colour/colorimetry.h"
#include "output/marks/plane_fit.h"

namespace rakelight {

namespace {

constexpr double kClippedShare = 0.01;  // common practice, no published source
constexpr double kTrimmed = 0.1;
constexpr int kGrid = 24;  // pixels a side taken of a patch

struct Pixels {
    std::array<std::vector<double>, 3> channels;
    std::array<std::size_t, 3> clipped{};

    void add(const Taking& how, const glm::dvec2& at) {
        const glm::ivec2 last = how.picture.size_px() - 1;
        const auto rgb = how.picture.pixel(glm::clamp(glm::ivec2(glm::floor(at)), glm::ivec2(0), last));
        for (std::size_t c = 0; c < 3; ++c) {
            clipped[c] += rgb[c] >= how.picture.ceiling();
            const auto v = static_cast<double>(rgb[c]);
            channels[c].push_back(how.linear ? v : decode(EncodedSrgb{v, 0, 0}).r);
        }
    }
};

double trimmed_mean(std::vector<double> values) {
    std::sort(values.begin(), values.end());
    const auto cut = static_cast<std::size_t>(kTrimmed * static_cast<double>(values.size()));
    double sum = 0;
    for (std::size_t i = cut; i < values.size() - cut; ++i) sum += values[i];
    return sum / static_cast<double>(values.size() - 2 * cut);
}

double relative_spread(const std::vector<double>& values, double mean) {
    double sum = 0;
    for (const double v : values) sum += (v - mean) * (v - mean);
    return mean > 0 ? std::sqrt(sum / static_cast<double>(values.size())) / mean : 0;
}

Reading reading_of(const Pixels& pixels) {
    Reading r;
    for (std::size_t c = 0; c < 3; ++c) {
        const std::vector<double>& values = pixels.channels[c];
        r.value[c] = trimmed_mean(values);
        r.usable[c] =
            static_cast<double>(pixels.clipped[c]) <= kClippedShare * static_cast<double>(values.size());
    }
    r.spread = relative_spread(pixels.channels[1], r.value[1]);
    return r;
}

glm::dvec2 from_chart(const Taking& how, const glm::dvec2& px) {
    return (px - how.middle_px) / how.width_px;
}

}  // namespace

Taking taking(const Photograph& picture, Tone tone, const ChartCorners& corners) {
    const bool linear = tone == Tone::by_format ? picture.linear() : tone == Tone::linear;
    const double width = (glm::distance(corners[0], corners[1]) + glm::distance(corners[3], corners[2])) / 2;
    return {picture, linear, in_picture(corners, {0.5, 0.5}), width};
}

glm::dvec2 in_picture(const ChartCorners& corners, const glm::dvec2& on_chart) {
    // The projective map of the unit square onto four points (Heckbert 1989, section 2.2.3).
    constexpr std::array<glm::dvec2, 4> kSquare{{{0, 0}, {1, 0}, {1, 1}, {0, 1}}};
    Eigen::Matrix<double, 8, 8> m;
    Eigen::Matrix<double, 8, 1> right;
    for (int i = 0; i < 4; ++i) {
        const glm::dvec2 u = kSquare[static_cast<std::size_t>(i)], x = corners[static_cast<std::size_t>(i)];
        m.row(2 * i) << u.x, u.y, 1, 0, 0, 0, -u.x * x.x, -u.y * x.x;
        m.row(2 * i + 1) << 0, 0, 0, u.x, u.y, 1, -u.x * x.y, -u.y * x.y;
        right(2 * i) = x.x;
        right(2 * i + 1) = x.y;
    }
    const Eigen::Matrix<double, 8, 1> h = m.fullPivLu().solve(right);
    const double w = h(6) * on_chart.x + h(7) * on_chart.y + 1;
    return {(h(0) * on_chart.x + h(1) * on_chart.y + h(2)) / w,
            (h(3) * on_chart.x + h(4) * on_chart.y + h(5)) / w};
}

glm::dvec2 in_picture(const PictureBox& box, const glm::dvec2& part) {
    return through(box.to_px, box.at + box.size * part);
}

std::array<glm::dvec2, 4> corners_px(const PictureBox& box) {
    return {in_picture(box, {0, 0}), in_picture(box, {1, 0}), in_picture(box, {1, 1}),
            in_picture(box, {0, 1})};
}

glm::dvec2 size_px(const PictureBox& box) {
    const auto c = corners_px(box);
    return {std::max(glm::distance(c[0], c[1]), glm::distance(c[3], c[2])),
            std::max(glm::distance(c[0], c[3]), glm::distance(c[1], c[2]))};
}

Reading read_box(const Taking& how, const PictureBox& box) {
    constexpr double kRounding_px = 1e-6;
    Pixels pixels;
    // Of a large rectangle a grid of pixels is enough.
    const glm::ivec2 count =
        glm::clamp(glm::ivec2(size_px(box) + kRounding_px), glm::ivec2(1), glm::ivec2(128));
    for (int y = 0; y < count.y; ++y)
        for (int x = 0; x < count.x; ++x)
            pixels.add(how,
                       through(box.to_px, box.at + box.size * (glm::dvec2(x, y) + 0.5) / glm::dvec2(count)));
    Reading r = reading_of(pixels);
    r.at = from_chart(how, in_picture(box, {0.5, 0.5}));
    return r;
}

std::vector<Reading> read_sheet(const Taking& how, const std::vector<PictureBox>& sheet) {
    std::vector<Reading> spots;
    for (const PictureBox& box : sheet)
        for (int i = 0; i < 9; ++i) {
            PictureBox part = box;
            part.at += box.size * glm::dvec2(i % 3, i / 3) / 3.0;
            part.size /= 3.0;
            spots.push_back(read_box(how, part));
        }
    return spots;
}

std::array<Reading, kChartPatches> read_patches(const Taking& how, const ChartCorners& corners) {
    std::array<Reading, kChartPatches> patches;
    for (std::size_t i = 0; i < kChartPatches; ++i) {
        Pixels pixels;
        for (int k = 0; k < kGrid * kGrid; ++k) {
            const glm::dvec2 within = (glm::dvec2(k % kGrid, k / kGrid) + 0.5) / double(kGrid) - 0.5;
            pixels.add(how, in_picture(corners, patch_middle(i) + 0.5 * within * patch_side()));
        }
        patches[i] = reading_of(pixels);
        patches[i].at = from_chart(how, in_picture(corners, patch_middle(i)));
    }
    return patches;
}

}  // namespace rakelight
