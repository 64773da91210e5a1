#include "output/glare/measures/lit_share.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace rakelight {

namespace {

constexpr double kLeast = 1e-5;

// Integral of the normal distribution up to z, times its deviation: z Phi(z / s) + s phi(z / s).
double ramp(double z, double s) {
    const double t = z / s;
    if (t > 8) return z;
    if (t < -8) return 0;
    constexpr double kNorm = 0.5 * std::numbers::inv_sqrtpi * std::numbers::sqrt2;
    return z * 0.5 * std::erfc(-t / std::numbers::sqrt2) + s * kNorm * std::exp(-0.5 * t * t);
}

}  // namespace

double overlap(double from, double half, double even, double deviation) {
    const double x = std::abs(from), r = std::max(even, kLeast), s = std::max(deviation, kLeast);
    if (x - half - r > 6 * s) return 0;
    const double above = ramp(x + half + r, s) - ramp(x + half - r, s);
    const double below = ramp(x - half + r, s) - ramp(x - half - r, s);
    return std::clamp((above - below) / (2 * r), 0.0, 1.0);
}

}  // namespace rakelight
