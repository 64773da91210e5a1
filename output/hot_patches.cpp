#include "output/hot_patches.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "output/connected.h"
#include "output/pixel_sums.h"

namespace rakelight {

namespace {

HotPatch patch_of(const Film& film, const std::vector<SeenPatch>& seen, const std::vector<double>& mirrored,
                  const std::vector<std::size_t>& pixels) {
    HotPatch patch;
    double solid = 0, light = 0;
    glm::dvec2 middle(0);
    for (const std::size_t i : pixels) {
        const double part = mirrored[i] * seen[i].solid_angle_sr;
        solid += seen[i].solid_angle_sr;
        if (film.features.piece[i] <= 0) continue;  // joints and frame within the patch
        light += part;
        const auto width = static_cast<std::size_t>(film.width);
        middle +=
            part * glm::dvec2(static_cast<double>(i % width) + 0.5, static_cast<double>(i / width) + 0.5);
        if (mirrored[i] > patch.most_cd_per_m2) {
            patch.most_cd_per_m2 = mirrored[i];
            patch.piece = film.features.piece[i];
        }
    }
    patch.size_deg = glm::degrees(2 * std::sqrt(solid / std::numbers::pi));
    patch.cd_per_m2 = light / solid;
    patch.pixel = middle / light;
    return patch;
}

// The marked pixels and what lies between them where they are no farther apart than 2 `reach` (a closing,
// Serra 1982, "Image Analysis and Mathematical Morphology", by squares).
std::vector<char> closed(const std::vector<char>& marked, int width, int height, int reach) {
    const auto counted = [&](const std::vector<char>& from, bool all) {
        PixelSums sums(width, height);
        for (int y = 0; y < height; ++y) {
            double row = 0;
            for (int x = 0; x < width; ++x) {
                row += from[static_cast<std::size_t>(y * width + x)];
                sums.at(x + 1, y + 1) = sums.at(x + 1, y) + glm::dvec2(row, 0);
            }
        }
        std::vector<char> to(from.size());
        for (int y = 0; y < height; ++y)
            for (int x = 0; x < width; ++x) {
                const glm::ivec2 low = glm::max(glm::ivec2(x, y) - reach, 0),
                                 end = glm::min(glm::ivec2(x, y) + reach + 1, glm::ivec2(width, height));
                const double least = all ? double((end.x - low.x) * (end.y - low.y)) : 1;
                to[static_cast<std::size_t>(y * width + x)] = sums.over(low, end).x >= least;
            }
        return to;
    };
    return counted(counted(marked, false), true);
}

}  // namespace

std::vector<HotPatch> hot_patches(const Film& film, const std::vector<SeenPatch>& seen,
                                  const std::vector<double>& mirrored, const std::vector<double>& body,
                                  const GlareLimits& limits, int reach, const SeePatch& see) {
    std::vector<char> hot(film.pixel_count(), 0);
    for (std::size_t i = 0; i < hot.size(); ++i)
        hot[i] = film.features.piece[i] > 0 && mirrored[i] > limits.hot * body[i];
    std::vector<char> left = closed(hot, film.width, film.height, reach);
    std::vector<HotPatch> patches;
    for (std::size_t i = 0; i < left.size(); ++i) {
        if (!left[i]) continue;
        auto pixels = take_connected(left, i, static_cast<std::size_t>(film.width));
        patches.push_back(patch_of(film, seen, mirrored, pixels));
        std::erase_if(pixels, [&](std::size_t k) { return !hot[k]; });
        patches.back().blinding = std::any_of(pixels.begin(), pixels.end(), [&](std::size_t k) {
            return mirrored[k] > limits.blinding * body[k];
        });
        see(patches.back(), pixels);
    }
    std::sort(patches.begin(), patches.end(),
              [](const HotPatch& a, const HotPatch& b) { return a.size_deg > b.size_deg; });
    return patches;
}

}  // namespace rakelight
