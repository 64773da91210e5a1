#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include "scene/forms/forms.h"
#include "scene/forms/relief.h"
#include "scene/geometry/region.h"
#include "scene/geometry/solid.h"
#include "scene/model/layout.h"
#include "tests/support/laying_samples.h"
#include "tests/support/mesh_checks.h"

namespace rakelight {
namespace {

Piece square(double side_mm, double thickness_mm, std::uint64_t seed) {
    Piece p;
    p.outline_mm = {{100, 50}, {100 + side_mm, 50}, {100 + side_mm, 50 + side_mm}, {100, 50 + side_mm}};
    p.thickness_mm = thickness_mm;
    p.top_mm = thickness_mm + 2;
    p.tilt_rad = {0.03, -0.02};
    p.seed = seed;
    return p;
}

class EveryMaterial : public ::testing::TestWithParam<std::string> {
  protected:
    const Layout layout = sample_layout(Opus::regulatum, 10, 10, 1.5);
    const Material& material = stuff_called(layout, GetParam());
};

TEST_P(EveryMaterial, ClosedOutwardAndOfItsVolume) {
    for (std::uint64_t seed = 1; seed <= 20; ++seed)
        for (const double side : {4.0, 11.0, 28.0}) {
            const Mesh mesh = form_piece(square(side, material.thickness_mm, seed), material);
            expect_closed(mesh);
            expect_good_normals(mesh);
            // A prism less its rounded edges and ragged arris: some per cent, more the smaller it is.
            // Thresholds of our own, only to catch a slip.
            const double prism = side * side * static_cast<double>(material.thickness_mm);
            EXPECT_GT(volume_mm3(mesh), prism * (side < 5 ? 0.6 : 0.8));
            EXPECT_LT(volume_mm3(mesh), prism * 1.08);
        }
}

// What a wide pixel sees of it: as closed, within the outline, of nearly the same volume (a tenth is our own
// limit, only to catch a slip), and of fewer triangles.
TEST_P(EveryMaterial, CoarseIsTheSameThingInFewerTriangles) {
    for (std::uint64_t seed = 1; seed <= 10; ++seed)
        for (const double side : {4.0, 11.0, 28.0}) {
            const Piece piece = square(side, material.thickness_mm, seed);
            const Mesh fine = form_piece(piece, material), coarse = form_piece(piece, material, 4.8);
            expect_closed(coarse);
            EXPECT_LT(coarse.triangles.size(), fine.triangles.size());
            EXPECT_NEAR(volume_mm3(coarse) / volume_mm3(fine), 1, 0.1);
            for (const auto& p : coarse.positions_mm)
                EXPECT_TRUE(p.x > 100 - 1e-3 && p.x < 100 + side + 1e-3 && p.y > 50 - 1e-3 &&
                            p.y < 50 + side + 1e-3);
        }
}

TEST_P(EveryMaterial, KeepsWithinOutlineAndStandsOnItsBed) {
    const Mesh mesh = form_piece(square(12, material.thickness_mm, 5), material);
    float low = 1e9f;
    for (const auto& p : mesh.positions_mm) {
        EXPECT_TRUE(p.x > 100 - 1e-3 && p.x < 112 + 1e-3 && p.y > 50 - 1e-3 && p.y < 62 + 1e-3);
        low = std::min(low, p.z);
    }
    EXPECT_NEAR(low, 2, 1e-4);
}

TEST_P(EveryMaterial, HollowPieceIsStillClosed) {
    Piece piece = square(12, material.thickness_mm, 3);
    piece.outline_mm = {{0, 0}, {12, 0}, {8, 4}, {12, 10}, {0, 10}};
    const Mesh mesh = form_piece(piece, material);
    expect_closed(mesh);
    EXPECT_GT(volume_mm3(mesh), 0);
}
INSTANTIATE_TEST_SUITE_P(Stock, EveryMaterial, ::testing::Values("glass", "slate", "pumice", "slag"),
                         [](const auto& test) { return test.param; });

TEST(FormPiece, GlassIsModestInTriangles) {
    const Layout layout = sample_layout(Opus::regulatum, 10, 10, 1.5);
    const auto n = form_piece(square(11, 6, 2), layout.stock[0]).triangles.size();
    EXPECT_GE(n, 150u);
    EXPECT_LE(n, 450u);
}

TEST(FormPiece, RimTurnsFromFaceToSide) {
    // A rounded edge shows every direction between up and outward: so it carries a highlight from any lamp in
    // front.
    Layout layout = sample_layout(Opus::regulatum, 10, 10, 1.5);
    Piece piece = square(12, 6, 4);
    piece.tilt_rad = {0, 0};
    const Mesh mesh = form_piece(piece, layout.stock[0]);
    bool slanted = false;
    for (const auto& n : mesh.normals)
        slanted = slanted || (n.x > 0.6f && n.x < 0.8f && n.z > 0.6f && n.z < 0.8f);
    EXPECT_TRUE(slanted);
}

TEST(FaceRelief, SlopeIsTheDerivativeOfHeight) {
    const Layout layout = sample_layout(Opus::regulatum, 10, 10, 1.5);
    for (const auto& material : layout.stock) {
        FaceRelief relief(material, 8, 42);
        relief.add({{3, 3}, 3, 0.5f});
        int good = 0, all = 0;
        for (float x = -6; x < 6; x += 0.37f)
            for (float y = -6; y < 6; y += 0.41f) {
                constexpr float e = 2e-3f;
                const float dx =
                    (relief.at({x + e, y}).height_mm - relief.at({x - e, y}).height_mm) / (2 * e);
                ++all;
                good += std::abs(dx - relief.at({x, y}).slope.x) < 0.03f + 0.05f * std::abs(dx);
            }
        EXPECT_GT(good, all * 95 / 100) << material.name;  // creases excepted
    }
}

TEST(FaceRelief, GlassRipplesAsAsked) {
    // Slope deviation of fused glass about its dome: the material's ripple, in degrees.
    Material glass = sample_layout(Opus::regulatum, 10, 10, 1.5).stock[0];
    glass.ripple_deg = 2;
    double sum = 0;
    int count = 0;
    for (std::uint64_t seed = 0; seed < 400; ++seed) {
        const FaceRelief relief(glass, 1e6f, seed);  // no dome to speak of
        for (float x = -5; x <= 5; x += 2.5f) {
            const float s = relief.at({x, 1.3f * x}).slope.x;
            sum += static_cast<double>(s * s);
            ++count;
        }
    }
    EXPECT_NEAR(std::sqrt(sum / count), std::tan(glm::radians(2.0)), 0.15 * std::tan(glm::radians(2.0)));
}

// No ripple and no dome: every normal of the face is that of its plane, to the rounding of the mesh. The
// plane leans by the piece's tilt (closed form).
TEST(FormPiece, FaceWithoutRippleAndDomeIsFlat) {
    for (Material glass : sample_layout(Opus::regulatum, 10, 10, 1.5).stock) {
        if (glass.kind != Kind::glass) continue;
        glass.ripple_deg = 0;
        Piece piece = square(24, glass.thickness_mm, 7);
        piece.dome_mm = 0;
        const Mesh mesh = form_piece(piece, glass);
        const glm::vec3 plane =
            glm::normalize(glm::vec3(-std::tan(piece.tilt_rad.x), -std::tan(piece.tilt_rad.y), 1));
        int seen = 0;
        for (std::size_t i = 0; i < mesh.positions_mm.size(); ++i) {
            const glm::vec3 p = mesh.positions_mm[i];
            const bool middle = p.x > 105 && p.x < 119 && p.y > 55 && p.y < 69;
            if (!middle || p.z < 5) continue;
            ++seen;
            EXPECT_LT(glm::degrees(std::acos(std::min(glm::dot(mesh.normals[i], plane), 1.f))), 0.05f);
        }
        EXPECT_GT(seen, 0);
    }
}

}  // namespace
}  // namespace rakelight
