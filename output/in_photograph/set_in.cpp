#include "output/in_photograph/set_in.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>

namespace rakelight {
namespace {

constexpr double kRatioBlur_px = 0.8;  // takes the grain of the rendering off the wall's change
constexpr float kSeen = 1e-4f;

template <class Value>
std::vector<Value> blurred(const std::vector<Value>& from, int width, int height, double sigma_px) {
    if (!(sigma_px > 0.05)) return from;
    const int reach = static_cast<int>(std::ceil(3.5 * sigma_px));
    std::vector<float> weight;
    for (int k = -reach; k <= reach; ++k)
        weight.push_back(static_cast<float>(std::exp(-0.5 * k * k / (sigma_px * sigma_px))));
    const auto pass = [&](const std::vector<Value>& in, bool across) {
        std::vector<Value> out(in.size());
        tbb::parallel_for(0, height, [&](int y) {
            for (int x = 0; x < width; ++x) {
                Value sum(0);
                float all = 0;
                for (int k = -reach; k <= reach; ++k) {
                    const int xx = across ? x + k : x, yy = across ? y : y + k;
                    if (xx < 0 || yy < 0 || xx >= width || yy >= height) continue;
                    const float w = weight[static_cast<std::size_t>(k + reach)];
                    sum += w * in[static_cast<std::size_t>(yy) * width + xx];
                    all += w;
                }
                out[static_cast<std::size_t>(y) * width + x] = sum / all;
            }
        });
        return out;
    };
    return pass(pass(from, true), false);
}

// How the light of the bare wall changes, carried on under the edges of what covers it.
std::vector<glm::vec3> wall_change(const SetIn& p) {
    std::vector<glm::vec3> change(p.with.size(), glm::vec3(0));
    std::vector<float> bare(p.with.size(), 0);
    for (std::size_t i = 0; i < p.with.size(); ++i) {
        if (p.covered[i] > kSeen) continue;
        const glm::vec3 &a = p.with[i], &b = p.without[i];
        for (int c = 0; c < 3; ++c) change[i][c] = b[c] > 0 ? std::clamp(a[c] / b[c], 0.f, 4.f) : 1.f;
        bare[i] = 1;
    }
    change = blurred(change, p.width, p.height, kRatioBlur_px);
    bare = blurred(bare, p.width, p.height, kRatioBlur_px);
    for (std::size_t i = 0; i < change.size(); ++i) {
        change[i] = bare[i] > 1e-6f ? change[i] / bare[i] : glm::vec3(1);
        change[i] = glm::vec3(1) + p.reach[i] * (change[i] - glm::vec3(1));
    }
    return change;
}

}  // namespace

Composed set_in(const SetIn& p, double more_blur_px) {
    std::vector<glm::vec3> change = wall_change(p);
    std::vector<glm::vec3> panel(p.with.size(), glm::vec3(0));
    for (std::size_t i = 0; i < panel.size(); ++i)
        if (p.covered[i] > kSeen)
            panel[i] = glm::max(p.with[i] - (1 - p.covered[i]) * change[i] * p.without[i], glm::vec3(0));
    change = blurred(change, p.width, p.height, more_blur_px);
    panel = blurred(panel, p.width, p.height, more_blur_px);
    const std::vector<float> covered = blurred(p.covered, p.width, p.height, more_blur_px);
    Composed made{std::vector<glm::vec3>(panel.size()), std::vector<float>(panel.size())};
    for (std::size_t i = 0; i < panel.size(); ++i) {
        const float kept = p.in_front.empty() ? 0 : p.in_front[i];
        const glm::vec3 there = panel[i] + (1 - covered[i]) * change[i] * p.photograph[i];
        made.rgb[i] = glm::mix(there, p.photograph[i], kept);
        made.panel[i] = covered[i] * (1 - kept);
    }
    return made;
}

}  // namespace rakelight
