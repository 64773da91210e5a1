#include "scene/light/intensity_grid.h"

#include <algorithm>
#include <cmath>
#include <glm/gtc/constants.hpp>
#include <span>

namespace rakelight {

namespace {

constexpr float kSlack_deg = 1e-3f;  // rounding of an angle that lies on the grid's edge

struct Between {
    std::size_t first = 0;
    float share = 0;  // of the next node
    bool outside = false;
};

Between find(std::span<const float> nodes, float at) {
    if (at < nodes.front() - kSlack_deg || at > nodes.back() + kSlack_deg) return {.outside = true};
    const auto above = std::upper_bound(nodes.begin() + 1, nodes.end() - 1, at);
    const auto first = static_cast<std::size_t>(above - nodes.begin()) - 1;
    const float share = (at - nodes[first]) / (nodes[first + 1] - nodes[first]);
    return {first, std::clamp(share, 0.0f, 1.0f), false};
}

// Integral over [a, b] of a line from u to v times the sine, all angles in radians.
double under_sine(double a, double b, double u, double v) {
    const double slope = (v - u) / (b - a);
    const auto primitive = [&](double t) {
        return -(u + slope * (t - a)) * std::cos(t) + slope * std::sin(t);
    };
    return primitive(b) - primitive(a);
}

}  // namespace

float IntensityGrid::at(const glm::vec3& direction) const {
    const glm::vec3 d = across * direction;
    const float polar = glm::degrees(std::atan2(std::hypot(d.x, d.y), d.z));
    const Between p = find(polar_deg, polar);
    if (p.outside) return 0;
    const auto column = [&](std::size_t round) {
        const float* const first = &candela[round * polar_deg.size() + p.first];
        return first[0] + p.share * (first[1] - first[0]);
    };
    if (round_deg.size() == 1) return column(0);
    float round = glm::degrees(std::atan2(d.y, d.x));
    if (round < round_deg.front() - kSlack_deg) round += 360;
    const Between r = find(round_deg, round);
    if (r.outside) return 0;
    const float low = column(r.first);
    return low + r.share * (column(r.first + 1) - low);
}

glm::vec3 IntensityGrid::direction(float round, float polar) const {
    const float t = glm::radians(polar), c = glm::radians(round);
    return glm::vec3(std::sin(t) * std::cos(c), std::sin(t) * std::sin(c), std::cos(t)) * across;
}

double lumens(const IntensityGrid& grid) {
    const std::size_t polars = grid.polar_deg.size(), rounds = grid.round_deg.size();
    const auto zone = [&](std::size_t round) {
        double sum = 0;
        for (std::size_t i = 0; i + 1 < polars; ++i)
            sum += under_sine(glm::radians(double(grid.polar_deg[i])),
                              glm::radians(double(grid.polar_deg[i + 1])), grid.candela[round * polars + i],
                              grid.candela[round * polars + i + 1]);
        return sum;
    };
    if (rounds == 1) return 2 * glm::pi<double>() * zone(0);
    double flux = 0;
    for (std::size_t r = 0; r + 1 < rounds; ++r)
        flux += glm::radians(double(grid.round_deg[r + 1]) - grid.round_deg[r]) * (zone(r) + zone(r + 1)) / 2;
    return flux;
}

float greatest_candela(const IntensityGrid& grid) {
    return *std::max_element(grid.candela.begin(), grid.candela.end());
}

}  // namespace rakelight
