#include "output/study/values.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace rakelight {
namespace {

constexpr std::size_t kSteps = 201;  // of half an L*

struct Sums {
    double count = 0, first = 0, second = 0;  // of lightnesses and of their squares
};

// Sums of all steps before each.
std::array<Sums, kSteps + 1> sums_before(std::span<const float> lightness) {
    std::array<double, kSteps> count{};
    for (const float l : lightness)
        ++count[static_cast<std::size_t>(std::lround(2 * std::clamp(static_cast<double>(l), 0.0, 100.0)))];
    std::array<Sums, kSteps + 1> before{};
    for (std::size_t i = 0; i < kSteps; ++i) {
        const double l = static_cast<double>(i) / 2;
        before[i + 1] = {before[i].count + count[i], before[i].first + count[i] * l,
                         before[i].second + count[i] * l * l};
    }
    return before;
}

// Squares that are left when steps [from, end) become their mean.
double left(const std::array<Sums, kSteps + 1>& before, std::size_t from, std::size_t end) {
    const double n = before[end].count - before[from].count;
    const double sum = before[end].first - before[from].first;
    return n > 0 ? before[end].second - before[from].second - sum * sum / n : 0;
}

}  // namespace

std::vector<double> value_levels(std::span<const float> lightness, std::size_t count) {
    if (lightness.empty() || count == 0) return {};
    const auto before = sums_before(lightness);
    // cost[k][i]: least squares left of steps [0, i) in k + 1 levels; cut: where the last of them begins.
    std::vector<std::array<double, kSteps + 1>> cost(count);
    std::vector<std::array<std::size_t, kSteps + 1>> cut(count);
    for (std::size_t i = 0; i <= kSteps; ++i) cost[0][i] = left(before, 0, i), cut[0][i] = 0;
    for (std::size_t k = 1; k < count; ++k)
        for (std::size_t i = 0; i <= kSteps; ++i) {
            cost[k][i] = std::numeric_limits<double>::infinity();
            for (std::size_t j = 0; j <= i; ++j)
                if (const double c = cost[k - 1][j] + left(before, j, i); c < cost[k][i])
                    cost[k][i] = c, cut[k][i] = j;
        }
    std::vector<double> levels;
    for (std::size_t k = count, end = kSteps; k-- > 0; end = cut[k][end]) {
        const std::size_t from = cut[k][end];
        const double n = before[end].count - before[from].count;
        if (n > 0) levels.push_back((before[end].first - before[from].first) / n);
    }
    std::reverse(levels.begin(), levels.end());
    return levels;
}

std::size_t nearest_level(std::span<const double> levels, double lightness) {
    std::size_t best = 0;
    for (std::size_t i = 1; i < levels.size(); ++i)
        if (std::abs(levels[i] - lightness) < std::abs(levels[best] - lightness)) best = i;
    return best;
}

}  // namespace rakelight
