#include "scene/forms/side_wall.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "materials/maths/hash.h"
#include "scene/model/layout.h"
#include "scene/world/surface_cache.h"
#include "tests/support/block_walk.h"
#include "tests/support/laying_samples.h"

namespace rakelight {
namespace {

// Brute force: light that falls evenly from all round on a rectangle, refracted by Snell, followed to the
// bonded depth. The closed form counts short moves, so the rectangle is large against the depth.
TEST(SideWall, ShareOfTheSidesAsCountedRayByRay) {
    constexpr double kLength = 40, kWidth = 25, kDepth = 2;
    for (const double index : {1.33, 1.52, 1.7}) {
        Rng rng(hash_combine(7, static_cast<std::uint64_t>(index * 100)));
        constexpr int kRays = 400'000;
        int met = 0;
        for (int i = 0; i < kRays; ++i) {
            const double x = rng.within(0, kLength), y = rng.within(0, kWidth);
            const double sine = std::sqrt(rng.within(0, 1)) / index;  // Lambert's law, then Snell's
            const double aside = kDepth * sine / std::sqrt(1 - sine * sine);
            const double turn = rng.within(0, 2 * std::numbers::pi);
            const double u = x + aside * std::cos(turn), v = y + aside * std::sin(turn);
            met += u < 0 || u > kLength || v < 0 || v > kWidth;
        }
        const double counted = static_cast<double>(met) / kRays;
        // Corners, counted twice by the law of short moves, are aside^2 / (pi A): under 2 % of it here; the
        // count's own deviation is 0.6 %.
        EXPECT_NEAR(side_share(edge_per_mm(kLength, kWidth), kDepth, index), counted, 0.03 * counted)
            << index;
    }
}

TEST(SideWall, GrowsWithDepthAndStaysAShare) {
    EXPECT_EQ(side_share(edge_per_mm(10, 8), 0, 1.52), 0);
    // Closed form: while it is small, the share is linear in the depth.
    EXPECT_NEAR(side_share(edge_per_mm(10, 8), 2, 1.52), 2 * side_share(edge_per_mm(10, 8), 1, 1.52), 1e-12);
    EXPECT_LT(side_share(edge_per_mm(2, 2), 20, 1.52), 1);
}

TEST(SideWall, WhatTouchesIsTheGroutAndInOpenJointsTheBed) {
    Field field;
    field.bed = 1;
    field.grout = 4;
    field.recess_mm = 1;
    EXPECT_EQ(filling_of(field), 4u);
    EXPECT_DOUBLE_EQ(bonded_mm(field, 3), 2);
    field.grout.reset();
    EXPECT_EQ(filling_of(field), 1u);
    EXPECT_DOUBLE_EQ(bonded_mm(field, 3), 1);  // squeezed up by a third
    field.fill = 0.5;
    EXPECT_DOUBLE_EQ(bonded_mm(field, 3), 1.5);
}

// A drawn shape of 150 mm in a field whose other pieces are of 10 mm. Between white and charcoal in the
// joints its colour hardly moves, that of a piece of 10 mm does: by as much as light walked through either
// block says.
TEST(SideWall, IsOfThePiecesOwnOutline) {
    Layout layout = sample_layout(Opus::sectile, 10, 10, 1);
    layout.stock[kGlass].opaque = false;
    layout.stock[kGlass].scattering_per_mm = SampledSpectrum(0.0f);
    layout.stock[kGlass].absorption_per_mm = SampledSpectrum(0.02f);
    layout.tints[kBed].reflectance = SampledSpectrum(0.5f);
    layout.tints[kGrout].reflectance = SampledSpectrum(0.9f);
    layout.tints[kOther].reflectance = SampledSpectrum(0.04f);
    const auto seen = [&](double side_mm, std::uint32_t grout) {
        layout.fields[0].grout = grout;
        World world;
        world.interfaces = std::make_shared<InterfaceTables>();
        SurfaceCache cache(world, layout);
        Piece piece;
        piece.material = kGlass;
        piece.thickness_mm = 6;
        piece.outline_mm = {{0, 0}, {side_mm, 0}, {side_mm, side_mm}, {0, side_mm}};
        return static_cast<double>(
            mean(directional_albedo(world.surfaces[piece_object(cache, layout, piece).surface], 1.0f)));
    };
    const double mirrored = std::pow(0.52 / 2.52, 2);  // by the face, Fresnel at the normal
    const auto moved = [&](double side_mm) {
        return (seen(side_mm, kGrout) - mirrored) / (seen(side_mm, kOther) - mirrored);
    };
    const auto walked = [&](double side_mm) {
        const auto mean = [&](double filling) {
            return walk_block(
                       {side_mm, side_mm, 6, bonded_mm(layout.fields[0], 6), 1.52, 0.02, 0, 0.5, filling}, 1,
                       200'000, 3)
                .mean;
        };
        return mean(0.9) / mean(0.04);
    };
    for (const double side_mm : {10.0, 150.0})  // of two means of 3 %
        EXPECT_NEAR(moved(side_mm), walked(side_mm), 0.06 * walked(side_mm)) << side_mm;
    EXPECT_LT(moved(150), 1.1);
    EXPECT_GT(moved(10), 1.3);
}

// Gold a millimetre under the face lies above grout that stands two below it: no light comes to the sides. On
// the back of the same glass it loses by them.
TEST(SideWall, UnderLeafNoLightComesToTheSides) {
    const Layout layout = sample_layout(Opus::tessellatum, 10, 10, 1);
    Field field = layout.fields[0];
    field.recess_mm = 2;
    Material gold;
    gold.opaque = false;
    gold.index = 1.52f;
    gold.leaf = Leaf::gold;
    gold.leaf_depth_mm = 1;
    EXPECT_FALSE(side_wall(layout.tints, field, edge_per_mm(10, 10), 6, gold).shows());
    gold.leaf_depth_mm = 0;
    const SideWall behind = side_wall(layout.tints, field, edge_per_mm(10, 10), 6, gold);
    EXPECT_DOUBLE_EQ(behind.bonded_mm, 4);
    EXPECT_NEAR(behind.across_mm, 10, 0.45);  // half a step
}

// In plan, by hand: the nearest side; on it, and outside, nothing.
TEST(SideWall, TellsHowFarAPlaceLiesFromTheEdge) {
    const std::vector<glm::dvec2> outline{{0, 0}, {10, 0}, {10, 6}, {0, 6}};
    const std::vector<float> edge =
        distances_from_edge({{5, 3, 8}, {1, 2, 0}, {9.5, 3, 1}, {0, 2, 0}, {12, 3, 0}}, outline);
    const std::vector<float> expected{3, 1, 0.5f, 0, 0};
    for (std::size_t i = 0; i < edge.size(); ++i) EXPECT_NEAR(edge[i], expected[i], 1e-6);
}

}  // namespace
}  // namespace rakelight
