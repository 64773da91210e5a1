// A translucent layer of glass or resin between its interface and its backing: absorption, scattering, the
// slant of the refracted ray, every internal reflection. Solved once per material by discrete ordinates and
// doubling, then kept as one factor g of the direction: A(out, in) = g(out) g(in), the reciprocal product
// whose albedo is right from every direction. For a clear layer over a matte backing the product is exact
// (Beer-Lambert there and back). Sources: van de Hulst, Multiple Light Scattering (1980), ch. 4 (doubling);
// Wiscombe 1976, J. Quant. Spectrosc. Radiat. Transfer 16 (starting layer); Mudgett and Richards 1971, Appl.
// Opt. 10, 1485 (S = 3/4 of the reduced scattering coefficient, K = twice the absorption coefficient).
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <span>

#include "materials/colour/sampled_spectrum.h"
#include "materials/optics/interface_table.h"

namespace rakelight {

/// Nodes of g, uniform in the cosine of the refracted ray from grazing (first) to normal (last).
inline constexpr int kLayerNodes = 9;

/// Finds a direction among the nodes.
struct LayerCosine {
    float inverse_index2 = 1;              ///< 1 / n^2
    float first = 0;                       ///< refracted cosine at grazing
    float per_cosine = kLayerNodes - 1.f;  ///< nodes per unit of refracted cosine
    friend bool operator==(const LayerCosine&, const LayerCosine&) = default;

    /// A place between two nodes.
    struct Spot {
        std::size_t node = 0;
        float part = 0;  ///< 0..1 of the way to the next
    };

    /// Where the outer cosine `z`, 0..1, falls.
    Spot find(float z) const {
        const float inside = std::sqrt(1 - (1 - z * z) * inverse_index2);
        const float x = std::max(0.f, (inside - first) * per_cosine);
        const int i = std::min(static_cast<int>(x), kLayerNodes - 2);
        return {static_cast<std::size_t>(i), x - static_cast<float>(i)};
    }

    /// g for the outer cosine `z`.
    SampledSpectrum read(const std::array<SampledSpectrum, kLayerNodes>& g, float z) const {
        const Spot s = find(z);
        return lerp(g[s.node], g[s.node + 1], s.part);
    }
};

/// Of light refracted into material of a refractive index of at least 1.
LayerCosine make_layer_cosine(float index);

/// One band of a layer. Lengths are in millimetres.
struct LayerBand {
    double absorption_per_mm = 0;  ///< of a collimated ray, Napierian
    double scattering_per_mm = 0;  ///< Kubelka-Munk S
    double thickness_mm = 0;       ///< may be infinite
    double backing = 0;            ///< diffuse reflectance, 0..1; in a stack, that of the last layer counts
};

/// What all layers under one interface share: directions inside (half of them beyond the critical angle, if
/// there is one) and what the interface does to each.
struct LayerFrame {
    static constexpr int kDirections = 12;
    using Directions = std::array<double, kDirections>;

    double index = 1;
    LayerCosine cosine;
    Directions cosines{};                           ///< inside; the last ones reach the outside
    Directions weights{};                           ///< sum 1
    Directions internal{};                          ///< reflectance of the interface from inside
    std::array<double, kLayerNodes> node_weight{};  ///< of entering light, sum 1
};

/// `interface`: null for none (index 1). A rough interface is taken to bend rays as a smooth one and to
/// reflect, from inside, a share smaller by what reciprocity demands of its albedo.
LayerFrame make_layer_frame(const InterfaceTable* interface);

/// Share of the light entering at each node that leaves through the interface again, 0..1.
std::array<double, kLayerNodes> layer_albedo(const LayerFrame& frame, const LayerBand& band);

/// The same of a stack of at least one layer, interface first, all of the frame's index (fused, or glued with
/// a resin of like index): no reflection between them but scattering, to any depth.
std::array<double, kLayerNodes> layer_albedo(const LayerFrame& frame, std::span<const LayerBand> layers);

/// The nodes of g, and the mean of g with the weight of entering light (so that albedo = g * mean).
struct LayerFactor {
    std::array<double, kLayerNodes> g{};
    double mean = 0;
};
/// Parts an albedo into g and its mean; both 0 where the albedo is 0 throughout.
LayerFactor layer_factor(const LayerFrame& frame, const std::array<double, kLayerNodes>& albedo);

}  // namespace rakelight
