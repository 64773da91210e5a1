// What the grout at its sides does to the body of a piece of glass.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "materials/optics/surface.h"
#include "materials/optics/surface_lanes.h"
#include "tests/support/block_walk.h"

namespace rakelight {
namespace {

Material glass(float absorption_per_mm) {
    Material m;
    m.name = "glass";
    m.kind = Kind::glass;
    m.opaque = false;
    m.index = 1.52f;
    for (int b = 0; b < kBandCount; ++b)  // more in the red: a blue glass
        m.absorption_per_mm[b] = absorption_per_mm * static_cast<float>(b) / (kBandCount - 1);
    return m;
}

// Nothing absorbs: all light comes back, whatever part of it meets a side.
TEST(SideWallSurface, AWhiteFurnaceStaysWhite) {
    InterfaceTables faces;
    for (const double across_mm : {0.0, 4.0, 30.0}) {
        const Surface s =
            make_surface(glass(0), 4, SampledSpectrum(1.0f), 1, faces, {SampledSpectrum(1.0f), across_mm, 3});
        for (const float edge_mm : {0.0f, 0.7f, 2.0f})
            for (int b = 0; b < kBandCount; ++b) EXPECT_NEAR(s.side_at(edge_mm)[b], 1, 2e-3);
        for (const float z : {0.1f, 0.5f, 1.0f})
            for (int b = 0; b < kBandCount; ++b) EXPECT_NEAR(directional_albedo(s, z)[b], 1, 2e-3);
    }
}

struct SideCase {
    double length_mm, width_mm, thickness_mm, bonded_mm;
    double transmittance_3mm, scattering_per_mm;
    double bed, filling;
};

// Brute force: light that falls evenly on the face of a real box walks through it and leaves where it leaves.
// Twelve of small and large, long, thin and thick, dark and pale, clear and milky, between dark and pale
// filling. The walk's own deviation is 0.5 % of a mean and 1 to 2 % of a ring.
TEST(SideWallSurface, FallsOffFromTheEdgeAsInARealBlock) {
    const SideCase cases[] = {
        {8, 8, 3, 2.2, 0.5, 0, 0.5, 0.06},    {14, 7, 3, 2.2, 0.5, 0, 0.75, 0.06},
        {10, 10, 6, 5, 0.5, 0, 0.75, 0.06},   {20, 20, 6, 5, 0.5, 0, 0.5, 0.06},
        {10, 10, 6, 5, 0.8, 0, 0.5, 0.7},     {10, 10, 4, 3, 1, 0, 0.9, 0.9},
        {8, 8, 3, 2.2, 0.5, 0.05, 0.5, 0.06}, {10, 10, 6, 5, 0.5, 0.1, 0.75, 0.06},
        {14, 7, 3, 2.2, 0.3, 0.3, 0.5, 0.3},  {20, 20, 6, 5, 0.7, 0.3, 0.5, 0.06},
        {8, 8, 6, 5, 0.7, 1, 0.5, 0.06},      {40, 25, 9, 8, 0.9, 0.03, 0.75, 0.3},
    };
    constexpr int kRings = 6, kPhotons = 400'000, kParts = 16;
    InterfaceTables faces;
    unsigned seed = 0;
    for (const SideCase& c : cases) {
        SCOPED_TRACE(seed);
        const double absorption = -std::log(c.transmittance_3mm) / 3;
        const LeavingLight walked = walk_block({c.length_mm, c.width_mm, c.thickness_mm, c.bonded_mm, 1.52,
                                                absorption, c.scattering_per_mm, c.bed, c.filling},
                                               kRings, kPhotons, ++seed);
        Material m = glass(0);
        m.absorption_per_mm = SampledSpectrum(static_cast<float>(absorption));
        m.scattering_per_mm = SampledSpectrum(static_cast<float>(c.scattering_per_mm));
        const double across_mm = 2 * c.length_mm * c.width_mm / (c.length_mm + c.width_mm);
        const Surface s =
            make_surface(m, c.thickness_mm, SampledSpectrum(static_cast<float>(c.bed)), 1, faces,
                         {SampledSpectrum(static_cast<float>(c.filling)), across_mm, c.bonded_mm});
        const double mean = static_cast<double>(s.even[7]) * static_cast<double>(s.even[7]);
        EXPECT_NEAR(mean, walked.mean, 0.03 * walked.mean);
        const double middle = walked.at.back(), half_mm = std::min(c.length_mm, c.width_mm) / 2;
        for (int ring = 0; ring < kRings; ++ring) {
            double here = 0;
            for (int i = 0; i < kParts; ++i) {
                const double edge_mm = half_mm * (ring + (i + 0.5) / kParts) / kRings;
                here += mean * static_cast<double>(s.side_at(static_cast<float>(edge_mm))[7]) / kParts;
            }
            EXPECT_NEAR(here, walked.at[static_cast<std::size_t>(ring)], 0.06 * middle) << ring;
        }
    }
}

// Glass so dark that without sides next to nothing comes back: what the sides give it is no more than in a
// real block, by brute force as above. So little light errs by a tenth.
TEST(SideWallSurface, DarkGlassStaysDark) {
    constexpr double kAcross_mm = 10, kThick_mm = 6, kBonded_mm = 5, kScattering_per_mm = 0.002;
    InterfaceTables faces;
    for (const double bed : {0.07, 0.75})
        for (const double transmittance_3mm : {0.016, 0.045, 0.15, 0.24}) {
            SCOPED_TRACE(transmittance_3mm);
            const double absorption = -std::log(transmittance_3mm) / 3;
            const double walked = walk_block({kAcross_mm, kAcross_mm, kThick_mm, kBonded_mm, 1.52, absorption,
                                              kScattering_per_mm, bed, 0.07},
                                             1, 600'000, 5)
                                      .mean;
            Material m = glass(0);
            m.absorption_per_mm = SampledSpectrum(static_cast<float>(absorption));
            m.scattering_per_mm = SampledSpectrum(static_cast<float>(kScattering_per_mm));
            const Surface s = make_surface(m, kThick_mm, SampledSpectrum(static_cast<float>(bed)), 1, faces,
                                           {SampledSpectrum(0.07f), kAcross_mm, kBonded_mm});
            const double mean = static_cast<double>(s.even[7]) * static_cast<double>(s.even[7]);
            EXPECT_NEAR(mean, walked, 0.1 * walked);
        }
}

// What an eye sees at a place is the mean of the face times the profile there; a ray that no eye sees takes
// the mean.
TEST(SideWallSurface, LightPathsTakeTheProfile) {
    InterfaceTables faces;
    const Surface s =
        make_surface(glass(0.1f), 4, SampledSpectrum(0.6f), 1, faces, {SampledSpectrum(0.05f), 10, 3});
    const glm::vec3 out = glm::normalize(glm::vec3(0.3f, 0, 1)), in = glm::normalize(glm::vec3(0, -0.4f, 1));
    LaneArray<const Surface*> lanes;
    lanes.fill(&s);
    Floats edges = broadcast(-1);
    edges[1] = 0, edges[2] = 1, edges[3] = 50;
    const SurfaceLanes at(lanes, broadcast3(out), broadcast(1), broadcast(1), edges);
    const LobeLanes lobes = at.evaluate(broadcast3(in));
    const SampledSpectrum mean = at.base(0, lobes.base);
    for (const std::size_t lane : {1u, 2u, 3u})
        for (int b = 0; b < kBandCount; ++b)
            EXPECT_FLOAT_EQ(at.base(lane, lobes.base)[b], mean[b] * s.side_at(edges[lane])[b]);
    EXPECT_LT(at.base(1, lobes.base)[7], 0.8f * at.base(3, lobes.base)[7]);
}

TEST(SideWallSurface, RefusesWhatIsNoSide) {
    InterfaceTables faces;
    EXPECT_THROW(
        make_surface(glass(0.4f), 4, SampledSpectrum(0.6f), 1, faces, {SampledSpectrum(0.2f), -1, 3}),
        std::invalid_argument);
    EXPECT_THROW(
        make_surface(glass(0.4f), 4, SampledSpectrum(0.6f), 1, faces, {SampledSpectrum(0.2f), 9, -1}),
        std::invalid_argument);
    EXPECT_THROW(make_surface(glass(0.4f), 4, SampledSpectrum(0.6f), 1, faces, {SampledSpectrum(1.2f), 9, 3}),
                 std::invalid_argument);
}

Material mirror() {
    Material m = glass(0);
    m.leaf = Leaf::silver;
    m.leaf_roughness = 0.01f;
    m.roughness = 0;
    return m;
}

// Light mirrored by silvered glass, its sides black: of evenly spread points of a rectangle, and ways round,
// the share whose ray, unfolded at the mirror, goes down and up again without meeting a side.
TEST(SideWallSurface, AMirrorLosesWhatMeetsItsSides) {
    constexpr double kLength = 20, kWidth = 14, kDepth = 2, kIndex = 1.52;
    constexpr double kAcross = 2 * kLength * kWidth / (kLength + kWidth);
    InterfaceTables faces;
    const Surface bare = make_surface(mirror(), 4, SampledSpectrum(0.0f), 1, faces);
    const Surface held =
        make_surface(mirror(), 4, SampledSpectrum(0.0f), 1, faces, {SampledSpectrum(0.0f), kAcross, kDepth});
    for (const double z : {1.0, 0.9, 0.7, 0.4}) {
        const double sine = std::sqrt(1 - z * z) / kIndex;
        const double aside = 2 * kDepth * sine / std::sqrt(1 - sine * sine);
        double kept = 0;
        constexpr int kWays = 360;
        for (int i = 0; i < kWays; ++i) {
            const double way = 2 * std::numbers::pi * i / kWays;
            kept += (1 - aside * std::abs(std::cos(way)) / kLength) *
                    (1 - aside * std::abs(std::sin(way)) / kWidth) / kWays;
        }
        const auto body = [&](const Surface& s) {
            const auto at = static_cast<float>(z);
            return directional_albedo(s, at)[7] - (1 - s.transmittance(at));
        };
        // Corners, counted twice by the law of short moves, are aside^2 / (pi A), 2 % at most here; the lobe
        // of a leaf has a width, and its colour nine nodes.
        EXPECT_NEAR(static_cast<double>(body(held) / body(bare)), kept, 0.03) << z;
    }
}

// What a mirror loses to white sides comes back evenly: a metal that took nothing would send all light back.
TEST(SideWallSurface, AWhiteFurnaceStaysWhiteRoundAMirror) {
    InterfaceTables faces;
    Surface s = make_surface(mirror(), 4, SampledSpectrum(0.0f), 1, faces, {SampledSpectrum(1.0f), 10, 2});
    for (std::size_t k = 0; k < s.g.size(); ++k) {
        const float inside = s.cosine.first + static_cast<float>(k) / s.cosine.per_cosine;
        s.g[k] = SampledSpectrum(1 - s.leaf.beside * std::sqrt(std::max(0.f, 1 - inside * inside)) / inside);
    }
    s.among = SampledSpectrum(1);
    for (const float z : {0.15f, 0.4f, 0.7f, 1.0f}) EXPECT_NEAR(directional_albedo(s, z)[7], 1, 0.01) << z;
    // And the filling's own colour, in what is not mirrored.
    const Surface dark =
        make_surface(mirror(), 4, SampledSpectrum(0.0f), 1, faces, {SampledSpectrum(0.0f), 10, 2});
    const Surface pale =
        make_surface(mirror(), 4, SampledSpectrum(0.0f), 1, faces, {SampledSpectrum(1.0f), 10, 2});
    EXPECT_GT(directional_albedo(pale, 0.7f)[7], directional_albedo(dark, 0.7f)[7] + 0.1f);
}

}  // namespace
}  // namespace rakelight
