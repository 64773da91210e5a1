// The turn of normals over footprints, against curves whose turn is known in closed form: over a step of s a
// sphere's normal turns by s / radius every way, a cylinder's across its axis alone.
#include "renderer/footprint.h"

#include <gtest/gtest.h>

#include <functional>

#include "tests/support/small_world.h"

namespace rakelight {
namespace {

constexpr float kRadius_mm = 500;

// A triangle in z = 0, 8 mm wide, whose corners have these normals; a ray meets its middle from above.
Widening over_triangle(const std::function<glm::vec3(const glm::vec3&)>& normal, float width_mm,
                       const glm::vec3& direction, Bases& basis, float smaller = 1) {
    World world;
    const glm::vec3 corners[3] = {{-4, -3, 0}, {4, -3, 0}, {0, 5, 0}};
    world.positions_mm.assign(corners, corners + 3);
    world.triangles.push_back({0, 1, 2});
    PackedNormals packed;
    for (int c = 0; c < 3; ++c) packed.normals[c] = pack_normal(glm::normalize(normal(corners[c])));
    world.packed_normals.push_back(packed);
    const Hit hit{100, 0, 1 / 3.0f, 1 / 3.0f, {0, 0, 1}};
    LaneArray<const Hit*> hits;
    hits.fill(&hit);
    return widening(world, hits, broadcast3(glm::normalize(direction)), broadcast(width_mm),
                    broadcast(smaller), Ints{}, basis);
}

Bases upright() {
    return Bases(broadcast3(glm::vec3(0, 0, 1)));
}

TEST(Footprint, OfASphereIsAlikeEveryWay) {
    Bases basis = upright();
    const Widening w = over_triangle([](const glm::vec3& at) { return at + glm::vec3(0, 0, kRadius_mm); }, 1,
                                     {0, 0, -1}, basis);
    const float wanted = 2 / (kRadius_mm * kRadius_mm);
    EXPECT_NEAR(w.along[0], wanted, 0.02f * wanted);
    EXPECT_NEAR(w.across[0], wanted, 0.02f * wanted);
}

TEST(Footprint, OfACylinderIsAcrossItsAxis) {
    const glm::vec3 way = glm::normalize(glm::vec3(3, 4, 0));
    Bases basis = upright();
    const Widening w = over_triangle(
        [&](const glm::vec3& at) { return way * glm::dot(way, at) + glm::vec3(0, 0, kRadius_mm); }, 1,
        {0, 0, -1}, basis);
    const float wanted = 2 / (kRadius_mm * kRadius_mm);
    EXPECT_NEAR(w.along[0], wanted, 0.02f * wanted);
    EXPECT_NEAR(w.across[0], 0, 0.02f * wanted);
    EXPECT_NEAR(std::abs(basis.x.x[0] * way.x + basis.x.y[0] * way.y), 1, 1e-3f);
}

// Seen at 60 degrees a footprint is drawn out to twice its length.
TEST(Footprint, IsDrawnOutWhereItIsSeenAslant) {
    Bases basis = upright();
    const Widening w = over_triangle([](const glm::vec3& at) { return at + glm::vec3(0, 0, kRadius_mm); },
                                     0.5f, {std::sqrt(3.0f), 0, -1}, basis);
    const float wanted = 2 * 0.25f / (kRadius_mm * kRadius_mm);
    EXPECT_NEAR(w.along[0], 4 * wanted, 0.1f * wanted);
    EXPECT_NEAR(w.across[0], wanted, 0.05f * wanted);
    EXPECT_NEAR(std::abs(basis.x.x[0]), 1, 1e-2f);
}

TEST(Footprint, OfAFlatFaceIsNothingAndOfATriangleNoMoreThanItsOwn) {
    Bases basis = upright();
    const Widening flat =
        over_triangle([](const glm::vec3&) { return glm::vec3(0, 0, 1); }, 1, {0, 0, -1}, basis);
    EXPECT_EQ(flat.along[0], 0);
    const auto bent = [](const glm::vec3& at) { return at + glm::vec3(0, 0, kRadius_mm); };
    const Widening wide = over_triangle(bent, 100, {0, 0, -1}, basis);
    // The widest side turns by 8.9 mm / 500 mm.
    EXPECT_LT(wide.along[0], 2 * 2 * std::pow(kMostOfTriangle * 9 / kRadius_mm, 2.0f));
    EXPECT_GT(wide.along[0], 2 * std::pow(kMostOfTriangle * 6 / kRadius_mm, 2.0f));
}

// Squares of widths fall as number^(-2/3) (after Knaus and Zwicker 2011), to a ninth in 27 rays; and of a rim
// that turns farther within a pixel than a lobe may be wide, as number^(-1/6).
TEST(Footprint, VanishesAsRaysGrowEvenWhereItIsWiderThanTheCurve) {
    constexpr float kRim_mm = 3;
    const auto rim = [](const glm::vec3& at) { return at + glm::vec3(0, 0, kRim_mm); };
    for (const auto& [width_mm, left] : {std::pair{0.01f, 1 / 9.0f}, {100.0f, std::sqrt(1 / 3.0f)}}) {
        Bases basis = upright();
        const Floats first = over_triangle(rim, width_mm, {0, 0, -1}, basis, shrinking(0)).along;
        const Floats later = over_triangle(rim, width_mm, {0, 0, -1}, basis, shrinking(26)).along;
        EXPECT_NEAR(later[0] / first[0], left, 1e-3f) << width_mm;
    }
}

}  // namespace
}  // namespace rakelight
