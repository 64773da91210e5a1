// The grain of each lamp group alone, which is what is left when the others are dimmed.
#include "renderer/tile_error.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>
#include <string>

#include "renderer/render.h"
#include "scene/laying/laying.h"
#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"

namespace rakelight {
namespace {

constexpr const char* kLayout = R"(
panel: {name: two lights, size: [120, 90]}
fields: [{name: all, piece: 12, mix: limestone, tilt: 0, lippage: 0}]
lamps:
  - {name: key, form: spot, at: [-800, 2900, 1100], aim: [0, 1450, 0], lumen: 700, beam angle: 24, field angle: 45, width: 50}
  - {name: glow, form: spot, at: [0, 400, 3000], aim: [0, 3000, 3200], lumen: 4000, beam angle: 60, field angle: 90, width: 50}
pictures:
  - {name: small, viewpoint: straight, size: [32, 24], most samples: 4096, grain: 8 %}
)";

struct Grain {
    double relative = 0;  // of the group's own light, mean over the pixels
    double part = 0;      // of the group in all light
    double samples = 0;
};

// Two renders that differ in chance alone: the mean of their difference is 2 / sqrt(pi) standard errors
// (normal law).
Grain grain_of(const std::string& group, const std::string& dimmed) {
    std::string text = kLayout;
    if (!dimmed.empty()) text.replace(text.find("lumen: 4000"), 11, dimmed);
    Layout layout = read_layout_text(text, "lights.yaml");
    const World world = build_world(layout, lay(layout));
    const Bvh bvh(world);
    Picture picture = layout.views.pictures[0];
    const Film one = render(world, bvh, layout, picture);
    picture.grain_seed = 99;
    const Film two = render(world, bvh, layout, picture);
    Grain grain;
    double all = 0, own = 0;
    for (std::size_t g = 0; g < one.groups.size(); ++g)
        for (std::size_t p = 0; p < one.pixel_count(); ++p) {
            const double a = static_cast<double>(one.xyz[g][p].y), b = static_cast<double>(two.xyz[g][p].y);
            all += a + b;
            if (one.groups[g] != group) continue;
            own += a + b;
            grain.relative += std::abs(a - b) * std::sqrt(std::numbers::pi) / (a + b + 1e-12);
        }
    grain.relative /= static_cast<double>(one.pixel_count());
    grain.part = own / all;
    for (const int n : one.samples) grain.samples += n / static_cast<double>(one.pixel_count());
    return grain;
}

// A wash off the ceiling gives a fifth of the light, and nearly all of the grain.
TEST(TileError, HoldsForALampGroupAlone) {
    const Grain glow = grain_of("glow", "");
    EXPECT_GT(glow.part, 0.1);
    EXPECT_LT(glow.part, 0.4);
    // Errors are estimated from the samples themselves, and tiles stop at the first that seems low enough.
    EXPECT_LT(glow.relative, 1.2 * 0.08);
}

// What adds next to nothing counts as a tenth of the light: it may be as grainy as nobody sees in the whole,
// and costs no more than the whole does.
TEST(TileError, WhatAddsNearlyNothingCostsNothing) {
    const Grain faint = grain_of("glow", "lumen: 10");
    EXPECT_LT(faint.part, 0.002);
    EXPECT_LT(faint.samples, 1.05 * grain_of("key", "lumen: 10, dimmed to: 0 %").samples + 16);
}

// Closed form: of n batches half bring a mean of 2 and half nothing: the standard error of the mean 1 is
// 1 / sqrt(n - 1), and a little more as the root of an estimated variance is too low (Cureton 1968).
TEST(TileError, OfTheWorstGroupByHand) {
    constexpr int kBatches = 64;
    GroupLight light(1, 2);
    for (int i = 0; i < kBatches; ++i) {
        light.add(0, 0, 3 * kSamplesABatch, kSamplesABatch);
        light.add(0, 1, (i % 2 ? 2 : 0) * kSamplesABatch, kSamplesABatch);
    }
    const auto samples_of = [](std::size_t) { return kBatches * kSamplesABatch; };
    const double error = (1 + 0.25 / 63) / std::sqrt(63.0);
    EXPECT_NEAR(light.worst_error(samples_of, 0), error, 1e-12);
    // The floor as it has part in the light, a quarter.
    EXPECT_NEAR(light.worst_error(samples_of, 2), error / (1 + 0.25 * 2), 1e-12);
    EXPECT_EQ(GroupLight(4, 1).worst_error(samples_of, 1), 0);
}

// The standard error of means of normal samples, against those means themselves; the last batch is short.
TEST(TileError, FromBatchesAgainstTheScatterOfMeans) {
    constexpr int kMeans = 4000;
    std::mt19937 random(1);
    std::normal_distribution<double> of(5, 3);
    for (const int samples : {16, 28, 48}) {
        double told = 0, square = 0;
        for (int m = 0; m < kMeans; ++m) {
            BatchSums sums;
            for (int left = samples; left > 0; left -= kSamplesABatch) {
                const int n = std::min(left, kSamplesABatch);
                double batch = 0;
                for (int i = 0; i < n; ++i) batch += of(random);
                sums.add(batch, n);
            }
            told += sums.error(samples) / kMeans;
            square += (sums.sum / samples - 5) * (sums.sum / samples - 5) / kMeans;
        }
        EXPECT_NEAR(told / std::sqrt(square), 1, 0.04) << samples;  // three standard errors of 4000 means
    }
}

}  // namespace
}  // namespace rakelight
