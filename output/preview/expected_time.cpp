#include "output/preview/expected_time.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>

#include "scene/model/views.h"

namespace rakelight {

namespace {

constexpr double kSample_px = 4096;  // sixteen tiles

}  // namespace

double expected_seconds(const World& world, const Bvh& bvh, const Layout& layout, const Picture& picture,
                        RenderOptions options) {
    const double pixels = static_cast<double>(picture.width_px) * picture.height_px;
    const double rows = options.rows ? options.rows->end_row - options.rows->first_row : picture.height_px;
    const double scale = std::sqrt(std::min(1.0, kSample_px / pixels));
    const auto side = [&](int px) { return std::max(1, static_cast<int>(std::lround(px * scale))); };
    Picture sample = picture;
    sample.width_px = side(picture.width_px);
    sample.height_px = side(picture.height_px);
    options.rows = {};
    options.progress = nullptr;
    const auto began = std::chrono::steady_clock::now();
    render(world, bvh, layout, sample, options);
    const double sample_s = std::chrono::duration<double>(std::chrono::steady_clock::now() - began).count();
    return sample_s * pixels / (static_cast<double>(sample.width_px) * sample.height_px) * rows /
           picture.height_px;
}

std::string spoken_seconds(double seconds) {
    if (seconds < 90) return fmt::format("{:.0f} s", seconds);
    if (seconds < 90 * 60) return fmt::format("{:.0f} min", seconds / 60);
    return fmt::format("{:.1f} h", seconds / 3600);
}

}  // namespace rakelight
