// What the grout at its sides does to the body of a piece of glass.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "materials/optics/surface.h"

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
    for (const double share : {0.0, 0.3, 1.0}) {
        const Surface s =
            make_surface(glass(0), 4, SampledSpectrum(1.0f), 1, faces, {SampledSpectrum(1.0f), share});
        for (const float z : {0.1f, 0.5f, 1.0f})
            for (int b = 0; b < kBandCount; ++b) EXPECT_NEAR(directional_albedo(s, z)[b], 1, 2e-3);
    }
}

// Share of diffuse light that crosses a layer of this optical depth: twice the exponential integral E3, here
// its integral of 2 z exp(-depth / z) over cosines, by the midpoint rule.
double diffuse_crossing(double depth) {
    constexpr int kSteps = 4000;
    double sum = 0;
    for (int i = 0; i < kSteps; ++i) {
        const double z = (i + 0.5) / kSteps;
        sum += 2 * z * std::exp(-depth / z) / kSteps;
    }
    return sum;
}

// Glass that only absorbs, without a face of its own, in closed form: light goes in along its way by the law
// of Beer and Lambert, is scattered evenly by what is behind, and goes out as diffuse light. What meets a
// side comes by half the way over the filling. Between its nodes a layer is interpolated: 1.5 % where it is
// steepest.
TEST(SideWallSurface, GoesByBeersLawToTheBedAndHalfTheWayToTheFilling) {
    constexpr double kThickness_mm = 4, kBed = 0.6, kFilling = 0.2;
    InterfaceTables faces;
    Material m = glass(0.1f);
    m.index = 1;
    for (const double share : {0.0, 0.25, 1.0}) {
        const Surface s = make_surface(m, kThickness_mm, SampledSpectrum(static_cast<float>(kBed)), 1, faces,
                                       {SampledSpectrum(static_cast<float>(kFilling)), share});
        for (const double z : {0.3, 0.7, 1.0}) {
            const SampledSpectrum albedo = directional_albedo(s, static_cast<float>(z));
            for (int b = 0; b < kBandCount; ++b) {
                const double depth = kThickness_mm * static_cast<double>(m.absorption_per_mm[b]);
                const auto by = [&](double way, double behind) {
                    return std::exp(-way / z) * behind * diffuse_crossing(way);
                };
                const double expected = (1 - share) * by(depth, kBed) + share * by(depth / 2, kFilling);
                EXPECT_NEAR(static_cast<double>(albedo[b]), expected, 5e-3) << share << ' ' << z << ' ' << b;
            }
        }
    }
}

TEST(SideWallSurface, RefusesWhatIsNoShare) {
    InterfaceTables faces;
    EXPECT_THROW(make_surface(glass(0.4f), 4, SampledSpectrum(0.6f), 1, faces, {SampledSpectrum(0.2f), 1.5}),
                 std::invalid_argument);
    EXPECT_THROW(make_surface(glass(0.4f), 4, SampledSpectrum(0.6f), 1, faces, {SampledSpectrum(1.2f), 0.5}),
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
    const double share =
        mean_tangent(kIndex) * kDepth * 2 * (kLength + kWidth) / (kLength * kWidth) / std::numbers::pi;
    InterfaceTables faces;
    const Surface bare = make_surface(mirror(), 4, SampledSpectrum(0.0f), 1, faces);
    const Surface held =
        make_surface(mirror(), 4, SampledSpectrum(0.0f), 1, faces, {SampledSpectrum(0.0f), share});
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
    Surface s = make_surface(mirror(), 4, SampledSpectrum(0.0f), 1, faces, {SampledSpectrum(1.0f), 0.15});
    for (std::size_t k = 0; k < s.g.size(); ++k) {
        const float inside = s.cosine.first + static_cast<float>(k) / s.cosine.per_cosine;
        s.g[k] = SampledSpectrum(1 - s.leaf.beside * std::sqrt(std::max(0.f, 1 - inside * inside)) / inside);
    }
    s.among = SampledSpectrum(1);
    for (const float z : {0.15f, 0.4f, 0.7f, 1.0f}) EXPECT_NEAR(directional_albedo(s, z)[7], 1, 0.01) << z;
    // And the filling's own colour, in what is not mirrored.
    const Surface dark =
        make_surface(mirror(), 4, SampledSpectrum(0.0f), 1, faces, {SampledSpectrum(0.0f), 0.15});
    const Surface pale =
        make_surface(mirror(), 4, SampledSpectrum(0.0f), 1, faces, {SampledSpectrum(1.0f), 0.15});
    EXPECT_GT(directional_albedo(pale, 0.7f)[7], directional_albedo(dark, 0.7f)[7] + 0.1f);
}

}  // namespace
}  // namespace rakelight
