#include "materials/colour/colour_temperature.h"

#include <algorithm>
#include <boost/math/tools/minima.hpp>
#include <cmath>

#include "materials/colour/illuminants.h"

namespace rakelight {

namespace {

struct Uv1960 {
    double u = 0;
    double v = 0;
};

Uv1960 uv_1960(const Xyz& c) {
    const double d = c.x + 15 * c.y + 3 * c.z;
    return {4 * c.x / d, 6 * c.y / d};
}

double distance(const Uv1960& a, const Uv1960& b) {
    return std::hypot(a.u - b.u, a.v - b.v);
}

constexpr double kMegakelvin = 1e6;

Uv1960 planckian_uv(double reciprocal_megakelvin) {
    return uv_1960(spectrum_to_xyz(planckian(kMegakelvin / reciprocal_megakelvin)));
}

}  // namespace

CorrelatedTemperature correlated_temperature(const Xyz& colour) {
    const Uv1960 target = uv_1960(colour);
    const auto distance_at = [&](double mired) { return distance(planckian_uv(mired), target); };
    // Equal steps of reciprocal temperature are nearly equal steps of colour.
    constexpr int kFirst = 10, kLast = 1000, kStep = 10;
    int best = kFirst;
    double best_distance = distance_at(best);
    for (int mired = kFirst + kStep; mired <= kLast; mired += kStep) {
        const double d = distance_at(mired);
        if (d < best_distance) {
            best = mired;
            best_distance = d;
        }
    }
    constexpr int kBits = 24;
    const auto [mired, least] = boost::math::tools::brent_find_minima(
        distance_at, double(std::max(best - kStep, kFirst)), double(std::min(best + kStep, kLast)), kBits);
    return {kMegakelvin / mired, target.v >= planckian_uv(mired).v ? least : -least};
}

}  // namespace rakelight
