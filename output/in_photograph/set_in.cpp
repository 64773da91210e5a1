#include "output/in_photograph/set_in.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>

#include "output/compare/plane.h"

namespace rakelight {
namespace {

constexpr double kRatioBlur_px = 0.8;  // takes the grain of the rendering off the wall's change
constexpr float kSeen = 1e-4f;

Plane everywhere(const SetIn& p) {
    Plane weight(p.width, p.height);
    weight.v.assign(weight.v.size(), 1.0f);
    return weight;
}

std::vector<glm::vec3> blurred(const std::vector<glm::vec3>& from, const Plane& weight, double sigma_px) {
    if (!(sigma_px > 0.05)) return from;
    std::vector<glm::vec3> to(from.size());
    tbb::parallel_for(0, 3, [&](int c) {
        Plane channel(weight.width, weight.height);
        for (std::size_t i = 0; i < from.size(); ++i) channel.v[i] = from[i][c];
        channel = blurred(channel, weight, sigma_px);
        for (std::size_t i = 0; i < to.size(); ++i) to[i][c] = channel.v[i];
    });
    return to;
}

// How the light of the bare wall changes, carried on under the edges of what covers it.
std::vector<glm::vec3> wall_change(const SetIn& p) {
    std::vector<glm::vec3> more(p.with.size(), glm::vec3(0));  // than unchanged
    Plane bare(p.width, p.height);
    for (std::size_t i = 0; i < p.with.size(); ++i) {
        if (p.covered[i] > kSeen) continue;
        const glm::vec3 &a = p.with[i], &b = p.without[i];
        for (int c = 0; c < 3; ++c) more[i][c] = b[c] > 0 ? std::clamp(a[c] / b[c], 0.f, 4.f) - 1 : 0.f;
        bare.v[i] = 1;
    }
    more = blurred(more, bare, kRatioBlur_px);
    for (std::size_t i = 0; i < more.size(); ++i) more[i] = glm::vec3(1) + p.reach[i] * more[i];
    return more;
}

}  // namespace

Composed set_in(const SetIn& p, double more_blur_px) {
    std::vector<glm::vec3> change = wall_change(p);
    std::vector<glm::vec3> panel(p.with.size(), glm::vec3(0));
    for (std::size_t i = 0; i < panel.size(); ++i)
        if (p.covered[i] > kSeen)
            panel[i] = glm::max(p.with[i] - (1 - p.covered[i]) * change[i] * p.without[i], glm::vec3(0));
    const Plane all = everywhere(p);
    change = blurred(change, all, more_blur_px);
    panel = blurred(panel, all, more_blur_px);
    Plane covered(p.width, p.height);
    covered.v = p.covered;
    if (more_blur_px > 0.05) covered = blurred(covered, all, more_blur_px);
    Composed made{std::vector<glm::vec3>(panel.size()), std::vector<float>(panel.size())};
    for (std::size_t i = 0; i < panel.size(); ++i) {
        const float kept = p.in_front.empty() ? 0 : p.in_front[i];
        const glm::vec3 there = panel[i] + (1 - covered.v[i]) * change[i] * p.photograph[i];
        made.rgb[i] = glm::mix(there, p.photograph[i], kept);
        made.panel[i] = covered.v[i] * (1 - kept);
    }
    return made;
}

}  // namespace rakelight
