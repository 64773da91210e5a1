#include "output/print/printed_colour.h"

#include <algorithm>

namespace rakelight {

namespace {

bool shows(const LinearRgb& c) {
    constexpr double kSlack = 1e-3;
    return std::min({c.r, c.g, c.b}) >= -kSlack && std::max({c.r, c.g, c.b}) <= 1 + kSlack;
}

}  // namespace

PrintedColour printed_colour(const Lab& lab) {
    const auto rgb_of = [&](double chroma) {
        return xyz_to_linear_rgb(lab_to_xyz({lab.l, chroma * lab.a, chroma * lab.b}, xyz_of(kD65)));
    };
    PrintedColour printed;
    printed.in_srgb = shows(rgb_of(1));
    double low = 0, high = 1;
    for (int i = 0; !printed.in_srgb && i < 30; ++i) {
        const double middle = (low + high) / 2;
        (shows(rgb_of(middle)) ? low : high) = middle;
    }
    printed.srgb = to_bytes(encode(rgb_of(printed.in_srgb ? 1 : low)));
    return printed;
}

}  // namespace rakelight
