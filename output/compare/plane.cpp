#include "output/compare/plane.h"

#include <algorithm>
#include <cmath>

namespace rakelight {
namespace {

std::vector<float> bell(double sigma) {
    const int reach = std::max(1, static_cast<int>(std::ceil(3 * sigma)));
    std::vector<float> r;
    for (int i = -reach; i <= reach; ++i)
        r.push_back(static_cast<float>(std::exp(-0.5 * i * i / (sigma * sigma))));
    return r;
}

// One way along: sums of value times weight, and of weight.
void spread(Plane& value, Plane& weight, const std::vector<float>& kernel, bool along_x) {
    const int reach = static_cast<int>(kernel.size()) / 2;
    const Plane from = value, from_weight = weight;
    for (int y = 0; y < value.height; ++y)
        for (int x = 0; x < value.width; ++x) {
            float sum = 0, weights = 0;
            const int here = along_x ? x : y, end = along_x ? value.width : value.height;
            for (int i = std::max(0, here - reach); i <= std::min(end - 1, here + reach); ++i) {
                const float k = kernel[static_cast<std::size_t>(i - here + reach)];
                const std::size_t at = along_x ? value.at(i, y) : value.at(x, i);
                sum += k * from.v[at];
                weights += k * from_weight.v[at];
            }
            value.v[value.at(x, y)] = sum;
            weight.v[value.at(x, y)] = weights;
        }
}

}  // namespace

Plane blurred(const Plane& plane, const Plane& weight, double sigma) {
    Plane value = plane, total = weight;
    for (std::size_t i = 0; i < value.v.size(); ++i) value.v[i] *= weight.v[i];
    const std::vector<float> kernel = bell(sigma);
    spread(value, total, kernel, true);
    spread(value, total, kernel, false);
    for (std::size_t i = 0; i < value.v.size(); ++i)
        value.v[i] = total.v[i] > 1e-6f ? value.v[i] / total.v[i] : 0;
    return value;
}

Plane reduced(const Plane& plane, const Plane& weight, int factor) {
    Plane r(plane.width / factor, plane.height / factor);
    for (int y = 0; y < r.height; ++y)
        for (int x = 0; x < r.width; ++x) {
            float sum = 0, weights = 0;
            for (int j = 0; j < factor; ++j)
                for (int i = 0; i < factor; ++i) {
                    const std::size_t at = plane.at(x * factor + i, y * factor + j);
                    sum += plane.v[at] * weight.v[at];
                    weights += weight.v[at];
                }
            r.v[r.at(x, y)] = weights > 0 ? sum / weights : 0;
        }
    return r;
}

Plane reduced_weight(const Plane& weight, int factor) {
    Plane all = weight;
    std::fill(all.v.begin(), all.v.end(), 1.f);
    return reduced(weight, all, factor);
}

}  // namespace rakelight
