#include "output/print/eye_glare.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace rakelight {

namespace {

struct Excess {
    int x = 0;
    std::array<float, 3> light{};
};

// Takes what is known to be above white off every pixel of a row, keeping its colour.
std::vector<Excess> take_excess(LinearPicture& picture, int y, std::span<const float> known) {
    std::vector<Excess> row;
    const std::size_t start = static_cast<std::size_t>(y) * static_cast<std::size_t>(picture.width);
    for (int x = 0; x < picture.width; ++x) {
        const std::size_t i = start + static_cast<std::size_t>(x);
        auto& [r, g, b] = picture.plane;
        const float bright = luminance(r[i], g[i], b[i]);
        const float sure = known.empty() ? bright : bright * known[i];
        if (!(sure > 1)) continue;
        Excess e{x, {}};
        for (std::size_t c = 0; c < 3; ++c) {
            const float kept = picture.plane[c][i] * ((bright - sure + 1) / bright);
            e.light[c] = picture.plane[c][i] - kept;
            picture.plane[c][i] = kept;
        }
        row.push_back(e);
    }
    return row;
}

}  // namespace

double eye_glare_per_sr(double angle_deg, double age_years, double pigment) {
    const double age4 = std::pow(age_years / 70, 4);
    const auto fall = [&](double width_deg, double power) {
        return std::pow(1 + (angle_deg / width_deg) * (angle_deg / width_deg), -power);
    };
    return (1 - 0.08 * age4) * (9.2e6 * fall(0.0046, 1.5) + 1.5e5 * fall(0.045, 1.5)) +
           (1 + 1.6 * age4) * (400 * fall(0.1, 1) + 3e-8 * angle_deg * angle_deg +
                               pigment * (1300 * fall(0.1, 1.5) + 0.8 * fall(0.1, 0.5))) +
           2.5e-3 * pigment;
}

GlareKernel make_glare_kernel(double pixel_deg) {
    constexpr double kReach_deg = 2;
    const double pixel_rad = pixel_deg * std::numbers::pi / 180;
    GlareKernel kernel;
    kernel.radius = std::clamp(static_cast<int>(kReach_deg / pixel_deg), 1, kMostGlare_px);
    const int side = 2 * kernel.radius + 1;
    kernel.weight.assign(static_cast<std::size_t>(side * side), 0);
    double scattered = 0;
    for (int y = -kernel.radius; y <= kernel.radius; ++y)
        for (int x = -kernel.radius; x <= kernel.radius; ++x) {
            const double away = std::hypot(x, y);
            if ((x == 0 && y == 0) || away > kernel.radius + 0.5) continue;
            // The function is steep beside the centre: average it over the pixel.
            constexpr int kParts = 4;
            const int parts = away < 8 ? kParts : 1;
            double mean = 0;
            for (int j = 0; j < parts; ++j)
                for (int i = 0; i < parts; ++i)
                    mean += eye_glare_per_sr(
                        pixel_deg * std::hypot(x + (i + 0.5) / parts - 0.5, y + (j + 0.5) / parts - 0.5));
            const double share = mean / (parts * parts) * pixel_rad * pixel_rad;
            kernel.weight[static_cast<std::size_t>((y + kernel.radius) * side + x + kernel.radius)] =
                static_cast<float>(share);
            scattered += share;
        }
    // The function holds a few per cent more than all the light; at very fine pixels nothing may be left
    // over.
    const double most = std::min(1.0, scattered);
    if (scattered > most)
        for (float& w : kernel.weight) w = static_cast<float>(w * most / scattered);
    kernel.weight[static_cast<std::size_t>(kernel.radius * side + kernel.radius)] =
        static_cast<float>(1 - most);
    return kernel;
}

float known_share(float luminance, float standard_error) {
    return luminance > 0 ? std::max(0.0f, 1 - 2 * standard_error / luminance) : 0;
}

void spread_glare(LinearPicture& picture, const GlareKernel& kernel, std::span<const float> known) {
    std::vector<std::vector<Excess>> excess(static_cast<std::size_t>(picture.height));
    tbb::parallel_for(0, picture.height,
                      [&](int y) { excess[static_cast<std::size_t>(y)] = take_excess(picture, y, known); });
    const int side = 2 * kernel.radius + 1;
    // Every row gathers from its neighbours in one fixed order, so sums round alike on any number of threads.
    tbb::parallel_for(0, picture.height, [&](int y) {
        const std::size_t start = static_cast<std::size_t>(y) * static_cast<std::size_t>(picture.width);
        const int first = std::max(0, y - kernel.radius);
        const int last = std::min(picture.height - 1, y + kernel.radius);
        for (int from = first; from <= last; ++from) {
            const float* weight = kernel.weight.data() + (y - from + kernel.radius) * side;
            for (const Excess& e : excess[static_cast<std::size_t>(from)]) {
                const int left = std::max(0, e.x - kernel.radius);
                const int right = std::min(picture.width - 1, e.x + kernel.radius);
                for (std::size_t c = 0; c < 3; ++c) {
                    float* out = picture.plane[c].data() + start;
                    const float light = e.light[c];
                    for (int x = left; x <= right; ++x) out[x] += light * weight[x - e.x + kernel.radius];
                }
            }
        }
    });
}

}  // namespace rakelight
