// Layers fused on one another. The judge is light itself: a random walk through the same stack.
#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <random>
#include <vector>

#include "materials/optics/fresnel.h"
#include "materials/optics/layer.h"

namespace rakelight {
namespace {

struct Walk {
    double albedo = 0;
    double error = 0;  ///< standard error
};

// Isotropic scattering with coefficient 4/3 S (Mudgett and Richards 1971), a smooth face, a matte backing.
// The walk goes from boundary to boundary; absorption is in the weight.
Walk random_walk(double index, const std::vector<LayerBand>& layers, double z_outside, int photons) {
    std::mt19937 engine(11);
    const auto uniform = [&] { return (engine() + 0.5) * (1.0 / 4294967296.0); };
    double sum = 0, squares = 0;
    for (int p = 0; p < photons; ++p) {
        std::size_t layer = 0;
        double depth = 0, weight = 1, escaped = 0;  // depth within the layer
        double cosine = std::sqrt(1 - (1 - z_outside * z_outside) / (index * index));
        while (weight > 0) {
            const LayerBand& here = layers[layer];
            const double scatter = 4. / 3 * here.scattering_per_mm;
            const double free = scatter > 0 ? -std::log(uniform()) / scatter : INFINITY;
            const double edge = cosine > 0 ? (here.thickness_mm - depth) / cosine : -depth / cosine;
            weight *= std::exp(-here.absorption_per_mm * std::min(free, edge));
            if (free < edge) {
                depth += cosine * free;
                cosine = 2 * uniform() - 1;
            } else if (cosine > 0 && layer + 1 < layers.size()) {
                ++layer, depth = 0;
            } else if (cosine > 0) {
                depth = here.thickness_mm;
                weight *= here.backing;
                cosine = -std::sqrt(uniform());
            } else if (layer > 0) {
                depth = layers[--layer].thickness_mm;
            } else {
                depth = 0;
                const double out = weight * (1 - dielectric_reflectance(-cosine, 1 / index));
                escaped += out;
                weight -= out;
                cosine = -cosine;
            }
            if (weight < 0.01) weight = uniform() < 0.1 ? weight * 10 : 0;
        }
        sum += escaped;
        squares += escaped * escaped;
    }
    const double albedo = sum / photons;
    return {albedo, std::sqrt(std::max(0.0, squares / photons - albedo * albedo) / photons)};
}

double normal_albedo(const LayerFrame& frame, const std::vector<LayerBand>& layers) {
    return layer_albedo(frame, layers)[kLayerNodes - 1];
}

const std::vector<std::vector<LayerBand>> kStacks{
    {{0, 0.08, 1, 0}, {0.5, 0.002, 6, 0.1}},                 // cement haze on dark glass
    {{0.1, 0.001, 3, 0}, {0.01, 0.4, 3, 0.3}},               // tint over opal
    {{0.01, 0.4, 3, 0}, {0.1, 0.001, 3, 0.3}},               // opal over tint
    {{0.02, 0, 2, 0}, {0.3, 1, 2, 0}, {0.05, 0.1, 3, 0.8}},  // three, one of them clear
    {{0, 2, 0.5, 0}, {0, 0, 5, 0.9}},                        // white film on clear glass
};

TEST(LayerStack, AgreesWithARandomWalk) {
    const InterfaceTable face = make_interface_table(1.52f, 0);
    const LayerFrame frame = make_layer_frame(&face);
    double worst = 0;
    for (const auto& layers : kStacks) {
        const auto nodes = layer_albedo(frame, layers);
        for (const double z : {1.0, 0.5}) {
            const Walk walk = random_walk(1.52, layers, z, 200000);
            const LayerCosine::Spot at = frame.cosine.find(static_cast<float>(z));
            const double solved = nodes[at.node] + at.part * (nodes[at.node + 1] - nodes[at.node]);
            worst = std::max(worst, std::fabs(solved / walk.albedo - 1));
            EXPECT_NEAR(solved, walk.albedo, 0.02 * walk.albedo + 3 * walk.error) << z;
        }
    }
    std::printf("stacks against the walk: worst %.4f of albedo\n", worst);
}

TEST(LayerStack, EqualLayersAreOneThickLayer) {
    for (const float index : {1.0f, 1.52f}) {
        const InterfaceTable face = make_interface_table(1.52f, 0);
        const LayerFrame frame = make_layer_frame(index > 1 ? &face : nullptr);
        for (const double s : {0.0, 0.01, 0.5, 5.0})
            for (const double k : {0.0, 0.1, 2.0}) {
                const auto whole = layer_albedo(frame, LayerBand{k, s, 6, 0.4});
                const std::vector<LayerBand> cut{{k, s, 1, 0}, {k, s, 2, 0}, {k, s, 3, 0.4}};
                const auto parts = layer_albedo(frame, cut);
                // 2e-3: each piece starts its doubling from another thin sheet
                for (std::size_t i = 0; i < whole.size(); ++i)
                    EXPECT_NEAR(parts[i], whole[i], 2e-3 * whole[i] + 1e-9) << s << ' ' << k;
            }
    }
}

TEST(LayerStack, OrderOfClearLayersIsOfNoAccount) {
    const InterfaceTable face = make_interface_table(1.52f, 0.1f);
    const LayerFrame frame = make_layer_frame(&face);
    const auto a = layer_albedo(frame, std::vector<LayerBand>{{0.3, 0, 1, 0}, {0.02, 0, 4, 0.6}});
    const auto b = layer_albedo(frame, std::vector<LayerBand>{{0.02, 0, 4, 0}, {0.3, 0, 1, 0.6}});
    for (std::size_t i = 0; i < a.size(); ++i) EXPECT_NEAR(a[i], b[i], 1e-12);
    // Where a layer scatters, order tells: white film over dark glass is paler than under it.
    EXPECT_GT(normal_albedo(frame, {{0, 1, 1, 0}, {1, 0, 3, 0}}),
              5 * normal_albedo(frame, {{1, 0, 3, 0}, {0, 1, 1, 0}}));
}

TEST(LayerStack, LosslessOverWhiteGivesAllBack) {
    const InterfaceTable face = make_interface_table(1.52f, 0.1f);
    for (const LayerFrame& frame : {make_layer_frame(&face), make_layer_frame(nullptr)})
        for (const double share :
             layer_albedo(frame, std::vector<LayerBand>{{0, 2, 1, 0}, {0, 0, 4, 0}, {0, 0.1, 3, 1}}))
            EXPECT_NEAR(share, 1, 1e-5);
}

TEST(LayerStack, AnEndlessLayerHidesAllUnderIt) {
    const InterfaceTable face = make_interface_table(1.52f, 0);
    const LayerFrame frame = make_layer_frame(&face);
    const auto alone = layer_albedo(frame, LayerBand{0.2, 1, INFINITY, 0});
    const auto over = layer_albedo(frame, std::vector<LayerBand>{{0.2, 1, 1e4, 0}, {0, 9, 9, 1}});
    for (std::size_t i = 0; i < alone.size(); ++i) EXPECT_NEAR(over[i], alone[i], 1e-9);
}

}  // namespace
}  // namespace rakelight
