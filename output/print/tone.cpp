#include "output/print/tone.h"

#include <algorithm>
#include <cmath>

#include "output/print/linear_picture.h"

namespace rakelight {

double shoulder(double luminance) {
    if (luminance <= kStraightUpTo) return luminance;
    constexpr double kRoom = 1 - kStraightUpTo;
    return 1 - kRoom * std::exp(-(luminance - kStraightUpTo) / kRoom);
}

LinearRgb print_colour(const LinearRgb& light) {
    const double bright = linear_rgb_to_xyz(light).y;
    if (!(bright > 0) || !std::isfinite(bright)) return {};
    const double printed = shoulder(bright);
    // Largest share of the colour, the rest being grey, at which every component fits.
    double share = 1;
    for (const double value : {light.r, light.g, light.b}) {
        const double away = value * (printed / bright) - printed;
        if (printed + away > 1) share = std::min(share, (1 - printed) / away);
        if (printed + away < 0) share = std::min(share, -printed / away);
    }
    const auto fit = [&](double value) {
        return std::clamp(printed + share * (value * (printed / bright) - printed), 0.0, 1.0);
    };
    return {fit(light.r), fit(light.g), fit(light.b)};
}

}  // namespace rakelight
