#include "materials/colour/ciede2000.h"

#include <cmath>
#include <numbers>

namespace rakelight {

namespace {

constexpr double kDegree = std::numbers::pi / 180;

double cos_deg(double angle_deg) {
    return std::cos(angle_deg * kDegree);
}

// Hue angle in [0, 360); 0 for a neutral (eq. 7).
double hue_deg(double a, double b) {
    if (a == 0 && b == 0) return 0;
    const double hue = std::atan2(b, a) / kDegree;
    return hue < 0 ? hue + 360 : hue;
}

// Chroma's seventh power against 25's: both the neutral correction (eq. 4) and the blue rotation (eq. 17) use
// it.
double chroma_ratio(double chroma) {
    const double seventh = std::pow(chroma, 7);
    return std::sqrt(seventh / (seventh + 6103515625.0));
}

// The shorter way round from one hue to the other (eq. 10).
double hue_step_deg(double from_deg, double to_deg) {
    const double step = to_deg - from_deg;
    if (step > 180) return step - 360;
    return step < -180 ? step + 360 : step;
}

// The hue midway on the shorter arc (eq. 14).
double mean_hue_deg(double first_deg, double second_deg) {
    const double total = first_deg + second_deg;
    if (std::abs(first_deg - second_deg) <= 180) return total / 2;
    return total < 360 ? (total + 360) / 2 : (total - 360) / 2;
}

}  // namespace

double ciede2000(const Lab& first, const Lab& second) {
    const double mean_c = (std::hypot(first.a, first.b) + std::hypot(second.a, second.b)) / 2;
    const double stretch = 1 + 0.5 * (1 - chroma_ratio(mean_c));  // eqs 4, 5
    const double a1 = stretch * first.a;
    const double a2 = stretch * second.a;
    const double c1 = std::hypot(a1, first.b);
    const double c2 = std::hypot(a2, second.b);
    const double h1 = hue_deg(a1, first.b);
    const double h2 = hue_deg(a2, second.b);
    const bool neutral = c1 * c2 == 0;

    const double dl = second.l - first.l;  // eqs 8 to 11
    const double dc = c2 - c1;
    const double dh = neutral ? 0 : 2 * std::sqrt(c1 * c2) * std::sin(hue_step_deg(h1, h2) * kDegree / 2);

    const double l = (first.l + second.l) / 2;  // eqs 12 to 14
    const double c = (c1 + c2) / 2;
    const double h = neutral ? h1 + h2 : mean_hue_deg(h1, h2);

    const double t = 1 - 0.17 * cos_deg(h - 30) + 0.24 * cos_deg(2 * h) + 0.32 * cos_deg(3 * h + 6) -
                     0.20 * cos_deg(4 * h - 63);  // eq. 15
    const double off = (l - 50) * (l - 50);
    const double sl = 1 + 0.015 * off / std::sqrt(20 + off);  // eqs 18 to 20
    const double sc = 1 + 0.045 * c;
    const double sh = 1 + 0.015 * c * t;
    const double blue = (h - 275) / 25;
    const double rotation =
        -2 * chroma_ratio(c) * std::sin(60 * std::exp(-blue * blue) * kDegree);  // eqs 16, 17, 21

    const double el = dl / sl;
    const double ec = dc / sc;
    const double eh = dh / sh;
    return std::sqrt(el * el + ec * ec + eh * eh + rotation * ec * eh);  // eq. 22
}

}  // namespace rakelight
