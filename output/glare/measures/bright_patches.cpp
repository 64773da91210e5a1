#include "output/glare/measures/bright_patches.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <optional>

#include "output/glare/measures/connected.h"
#include "output/glare/measures/pixel_sums.h"

namespace rakelight {

namespace {

// What a glint alone, averaged, takes up is a square of kTogether_deg; less than this only touches the limit.
constexpr double kLeast_deg = kTogether_deg / 2;

double disc_deg(double solid_angle_sr) {
    return glm::degrees(2 * std::sqrt(solid_angle_sr / std::numbers::pi));
}

// None where it is too small, or where no piece mirrors.
std::optional<FoundPatch> patch_of(const MirroredView& view, const std::vector<double>& together,
                                   double times, std::vector<std::size_t> pixels) {
    FoundPatch patch;
    double solid = 0, light = 0;
    std::map<std::int32_t, double> light_of;
    glm::dvec2 middle(0);
    const auto width = static_cast<std::size_t>(view.film.width);
    for (const std::size_t i : pixels) {
        const double sr = view.seen[i].solid_angle_sr;
        solid += sr;
        patch.times = std::max(patch.times, together[i] / view.body[i]);
        middle += together[i] * sr *
                  glm::dvec2(static_cast<double>(i % width) + 0.5, static_cast<double>(i / width) + 0.5);
        light += together[i] * sr;
        if (view.film.features.piece[i] > 0) light_of[view.film.features.piece[i]] += view.mirrored[i] * sr;
    }
    if (disc_deg(solid) < kLeast_deg || light_of.empty()) return {};
    patch.size_deg =
        std::max(view.pixel_deg, disc_deg(solid) - kTogether_deg * (1 - 2 * times / patch.times));
    const double radius = glm::radians(patch.size_deg / 2);
    patch.cd_per_m2 = light / (std::numbers::pi * radius * radius);
    patch.pixel = middle / light;
    patch.piece = std::max_element(light_of.begin(), light_of.end(), [](const auto& a, const auto& b) {
                      return a.second < b.second;
                  })->first;
    patch.pixels = std::move(pixels);
    return patch;
}

}  // namespace

std::vector<FoundPatch> bright_patches(const MirroredView& view, double times) {
    const Film& film = view.film;
    const int reach = std::max(1, static_cast<int>(std::lround(kTogether_deg / 2 / view.pixel_deg)));
    const std::vector<double> together = local_means(film.width, film.height, reach, [&](std::size_t i) {
        return glm::dvec2(film.features.piece[i] > 0 ? view.mirrored[i] : 0.0, 1);
    });
    std::vector<char> left(film.pixel_count());
    for (std::size_t i = 0; i < left.size(); ++i) left[i] = together[i] > times * view.body[i];
    std::vector<FoundPatch> patches;
    for (std::size_t i = 0; i < left.size(); ++i)
        if (left[i])
            if (auto patch = patch_of(view, together, times,
                                      take_connected(left, i, static_cast<std::size_t>(film.width))))
                patches.push_back(std::move(*patch));
    std::sort(patches.begin(), patches.end(),
              [](const FoundPatch& a, const FoundPatch& b) { return a.size_deg > b.size_deg; });
    return patches;
}

}  // namespace rakelight
