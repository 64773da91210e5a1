#include "output/glare/luminance_map.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace rakelight {

double LuminanceScale::at(double cd_per_m2) const {
    if (!(cd_per_m2 > 0)) return 0;
    return std::clamp((std::log10(cd_per_m2) - low) / (high - low), 0.0, 1.0);
}

LuminanceScale scale_for(const Film& film) {
    std::vector<float> seen(film.pixel_count());
    for (std::size_t i = 0; i < seen.size(); ++i) seen[i] = total_xyz(film, i).y;
    const auto last = seen.end() - 1 - static_cast<std::ptrdiff_t>(seen.size() / 1000);
    std::nth_element(seen.begin(), last, seen.end());
    const float most = *last;
    LuminanceScale scale;
    if (most > 0) scale.high = std::max(1, static_cast<int>(std::ceil(std::log10(most) - 1e-6)));
    scale.low = scale.high - 5;
    return scale;
}

EncodedSrgb luminance_colour(double place) {
    constexpr double kStart = 0.5, kTurns = -1.5, kHue = 1;  // Green's usual figures
    const double x = std::clamp(place, 0.0, 1.0);
    const double turn = 2 * std::numbers::pi * (kStart / 3 + kTurns * x), swing = kHue * x * (1 - x) / 2;
    const double c = std::cos(turn), s = std::sin(turn);
    const auto part = [&](double along, double across) {
        return std::clamp(x + swing * (along * c + across * s), 0.0, 1.0);
    };
    return {part(-0.14861, 1.78277), part(-0.29227, -0.90649), part(1.97294, 0)};
}

Print luminance_map(const Film& film, const LuminanceScale& scale) {
    Print print{film.width, film.height, {}};
    print.rgb.reserve(3 * film.pixel_count());
    for (std::size_t i = 0; i < film.pixel_count(); ++i) {
        const EncodedSrgb c = luminance_colour(scale.at(static_cast<double>(total_xyz(film, i).y)));
        for (const double v : {c.r, c.g, c.b}) print.rgb.push_back(static_cast<float>(v));
    }
    return print;
}

}  // namespace rakelight
