#include "output/print/eye_blur.h"

#include <tbb/blocked_range.h>
#include <tbb/parallel_for.h>

#include <cmath>
#include <numbers>

namespace rakelight {

namespace {

// One axis of the mixing; `along` and `across` are steps between neighbours and between lines.
template <class Value>
void mix(const std::vector<Value>& from, std::vector<Value>& to, int count, int lines, std::size_t along,
         std::size_t across, const std::vector<float>& weights) {
    const int reach = static_cast<int>(weights.size()) - 1;
    const int period = 2 * count;
    tbb::parallel_for(tbb::blocked_range<int>(0, lines), [&](const auto& range) {
        std::vector<Value> line(static_cast<std::size_t>(count + 2 * reach));
        for (int y = range.begin(); y != range.end(); ++y) {
            const std::size_t start = static_cast<std::size_t>(y) * across;
            for (int i = -reach; i < count + reach; ++i) {
                int j = (i % period + period) % period;  // mirrored at the edges: no light is lost
                if (j >= count) j = period - 1 - j;
                line[static_cast<std::size_t>(i + reach)] = from[start + static_cast<std::size_t>(j) * along];
            }
            for (int i = 0; i < count; ++i) {
                const Value* const middle = &line[static_cast<std::size_t>(i + reach)];
                Value sum = weights[0] * *middle;
                for (int k = 1; k <= reach; ++k)
                    sum += weights[static_cast<std::size_t>(k)] * (middle[k] + middle[-k]);
                to[start + static_cast<std::size_t>(i) * along] = sum;
            }
        }
    });
}

template <class Value>
std::vector<Value> mixed(const std::vector<Value>& values, int width_px, int height_px, double mm_per_px,
                         double distance_m) {
    const double minute_px = distance_m * 1000 * std::tan(kResolved_deg * std::numbers::pi / 180) / mm_per_px;
    const double sigma = minute_px / (2 * std::sqrt(2 * std::numbers::ln2));
    if (sigma < 0.2) return values;
    std::vector<float> weights;
    double total = 0;
    for (int k = 0; k <= static_cast<int>(std::ceil(3.5 * sigma)); ++k) {
        weights.push_back(static_cast<float>(std::exp(-0.5 * k * k / (sigma * sigma))));
        total += weights.back() * (k ? 2.0 : 1.0);
    }
    for (float& w : weights) w = static_cast<float>(w / total);
    std::vector<Value> rows(values.size()), both(values.size());
    const auto width = static_cast<std::size_t>(width_px);
    mix(values, rows, width_px, height_px, 1, width, weights);
    mix(rows, both, height_px, width_px, width, 1, weights);
    return both;
}

}  // namespace

double resolve_distance_m(double width_mm) {
    return width_mm / std::tan(kResolved_deg * std::numbers::pi / 180) / 1000;
}

std::vector<glm::vec3> seen_from(const std::vector<glm::vec3>& xyz, int width_px, int height_px,
                                 double mm_per_px, double distance_m) {
    return mixed(xyz, width_px, height_px, mm_per_px, distance_m);
}

std::vector<float> seen_from(const std::vector<float>& values, int width_px, int height_px, double mm_per_px,
                             double distance_m) {
    return mixed(values, width_px, height_px, mm_per_px, distance_m);
}

}  // namespace rakelight
