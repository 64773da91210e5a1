#include "output/glare/measures/sparkles.h"

#include <algorithm>
#include <cmath>

#include "output/glare/measures/connected.h"
#include "output/glare/measures/pixel_sums.h"

namespace rakelight {

namespace {

constexpr double kCentre_deg = 0.25, kSurround_deg = 1;

int reach_of(double wide_deg, double pixel_deg) {
    return std::max(1, static_cast<int>(std::lround(wide_deg / 2 / pixel_deg)));
}

}  // namespace

double just_seen_lux(double background_cd_per_m2) {
    const double root = 1 + std::sqrt(0.4 * background_cd_per_m2);
    return 0.242e-6 * root * root;
}

int count_sparkles(const MirroredView& view, const std::vector<FoundPatch>& patches, double widest_deg) {
    const Film& film = view.film;
    const auto on = [&](std::size_t i) { return film.features.piece[i] > 0; };
    const int near = reach_of(kCentre_deg, view.pixel_deg), far = reach_of(kSurround_deg, view.pixel_deg);
    const PixelSums centre(film.width, film.height, [&](std::size_t i) {
        const double error = film.error.empty() ? 0 : static_cast<double>(film.error[i]);
        return glm::dvec2(on(i) ? view.mirrored[i] : 0.0, error * error);
    });
    const std::vector<double> surround = local_means(film.width, film.height, far, [&](std::size_t i) {
        return on(i) ? glm::dvec2(view.mirrored[i], 1) : glm::dvec2(0);
    });
    const double pixels = (2.0 * near + 1) * (2.0 * near + 1);
    std::vector<char> sparkles(film.pixel_count());
    for (std::size_t i = 0; i < sparkles.size(); ++i) {
        if (!on(i)) continue;
        const glm::dvec2 sum = centre.near(i, near);
        const double beyond = sum.x - pixels * surround[i] - std::sqrt(sum.y);
        sparkles[i] = beyond * view.seen[i].solid_angle_sr > kSparkleTimes * just_seen_lux(view.body[i]);
    }
    for (const FoundPatch& patch : patches)
        if (patch.size_deg > widest_deg)
            for (const std::size_t i : patch.pixels) sparkles[i] = 0;
    int count = 0;
    for (std::size_t i = 0; i < sparkles.size(); ++i)
        if (sparkles[i]) {
            take_connected(sparkles, i, static_cast<std::size_t>(film.width));
            ++count;
        }
    return count;
}

}  // namespace rakelight
