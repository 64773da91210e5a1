#include "materials/photograph/tone_curve.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace rakelight {

namespace {

// Beyond the greys a curve as bent as an end may be by noise is not believed.
constexpr double kLeastSlope = 0.5, kMostSlope = 2;

}  // namespace

ToneCurve::ToneCurve(std::vector<GreyPoint> greys) {
    std::sort(greys.begin(), greys.end(),
              [](const GreyPoint& a, const GreyPoint& b) { return a.light < b.light; });
    if (greys.size() < 4) throw std::invalid_argument("fewer than four grey patches can be used");
    std::vector<double> x, y;
    for (const GreyPoint& g : greys) {
        if (!(g.reading > 0 && g.light > 0) || (!x.empty() && !(std::log(g.reading) > x.back() + 1e-3)))
            throw std::invalid_argument("the grey patches do not grow lighter from black to white");
        x.push_back(std::log(g.reading));
        y.push_back(std::log(g.light));
    }
    const auto chord = [&](std::size_t i) { return (y[i + 1] - y[i]) / (x[i + 1] - x[i]); };
    for (std::size_t i = 0; i < x.size(); ++i) {
        // The ends take the chord's own slope, within what a camera's curve may have.
        if (i == 0 || i + 1 == x.size()) {
            nodes_.push_back({x[i], y[i], std::clamp(chord(i == 0 ? 0 : i - 1), kLeastSlope, kMostSlope)});
            continue;
        }
        const double below = x[i] - x[i - 1], above = x[i + 1] - x[i];
        const double weight = (below + 2 * above) / (3 * (below + above));
        const double left = chord(i - 1), right = chord(i);
        nodes_.push_back({x[i], y[i], left * right / (weight * right + (1 - weight) * left)});
    }
}

double ToneCurve::light(double reading) const {
    if (!(reading > 0)) return 0;
    if (nodes_.empty()) return factor_ * reading;
    const double x = std::log(reading);
    const Node &first = nodes_.front(), &last = nodes_.back();
    if (x <= first.reading_log) return std::exp(first.light_log + first.slope * (x - first.reading_log));
    if (x >= last.reading_log) return std::exp(last.light_log + last.slope * (x - last.reading_log));
    const auto after = std::upper_bound(nodes_.begin(), nodes_.end(), x,
                                        [](double v, const Node& n) { return v < n.reading_log; });
    const Node &a = *(after - 1), &b = *after;
    const double h = b.reading_log - a.reading_log, t = (x - a.reading_log) / h;
    const double t2 = t * t, t3 = t2 * t;
    return std::exp((2 * t3 - 3 * t2 + 1) * a.light_log + (t3 - 2 * t2 + t) * h * a.slope +
                    (3 * t2 - 2 * t3) * b.light_log + (t3 - t2) * h * b.slope);
}

}  // namespace rakelight
