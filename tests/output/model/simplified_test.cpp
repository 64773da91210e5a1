// Fewer triangles for one shape.
#include "output/model/simplified.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "scene/room/joinery.h"
#include "tests/support/mesh_checks.h"

namespace rakelight {
namespace {

// A sphere of 10 mm as rings between two poles.
Mesh sphere(int rings, int around) {
    constexpr float kRadius_mm = 10;
    Mesh mesh;
    const auto add = [&](const glm::vec3& n) {
        mesh.positions_mm.push_back(kRadius_mm * n);
        mesh.normals.push_back(n);
    };
    add({0, 0, 1});
    for (int r = 1; r < rings; ++r)
        for (int a = 0; a < around; ++a) {
            const float down = std::numbers::pi_v<float> * static_cast<float>(r) / static_cast<float>(rings);
            const float turn =
                2 * std::numbers::pi_v<float> * static_cast<float>(a) / static_cast<float>(around);
            add({std::sin(down) * std::cos(turn), std::sin(down) * std::sin(turn), std::cos(down)});
        }
    add({0, 0, -1});
    const auto at = [&](int r, int a) {
        return static_cast<std::uint32_t>(1 + (r - 1) * around + a % around);
    };
    const std::uint32_t last = static_cast<std::uint32_t>(mesh.positions_mm.size()) - 1;
    for (int a = 0; a < around; ++a) {
        mesh.triangles.emplace_back(0, at(1, a), at(1, a + 1));
        for (int r = 1; r + 1 < rings; ++r) {
            mesh.triangles.emplace_back(at(r, a), at(r + 1, a), at(r + 1, a + 1));
            mesh.triangles.emplace_back(at(r, a), at(r + 1, a + 1), at(r, a + 1));
        }
        mesh.triangles.emplace_back(last, at(rings - 1, a + 1), at(rings - 1, a));
    }
    return mesh;
}

// Closed form: a chord whose ends lie on a sphere of radius r and whose middle lies d within it has the half
// length sqrt(2 r d - d^2). Triangles of a sphere then number at least 4 pi r^2 over the area of the largest
// one, an equilateral one in a circle of that radius, and no point of one lies deeper than d.
TEST(Simplified, ASphereStaysWithinTheDetail) {
    const Mesh fine = sphere(90, 180);
    expect_closed(fine);
    std::size_t before = fine.triangles.size();
    for (const double detail_mm : {0.05, 0.2, 0.8}) {
        const Mesh mesh = simplified(fine, detail_mm);
        expect_closed(mesh);
        expect_good_normals(mesh);
        EXPECT_LT(mesh.triangles.size(), before) << detail_mm;
        before = mesh.triangles.size();
        const double circle_mm2 = 2 * 10 * detail_mm - detail_mm * detail_mm;
        const double most_mm2 = 0.75 * std::sqrt(3.0) * circle_mm2;
        EXPECT_GT(static_cast<double>(mesh.triangles.size()), 4 * std::numbers::pi * 100 / most_mm2 / 4);
        for (std::size_t i = 0; i < mesh.positions_mm.size(); ++i) {
            EXPECT_NEAR(glm::length(mesh.positions_mm[i]), 10, 1e-4);
            EXPECT_NEAR(glm::dot(glm::normalize(mesh.positions_mm[i]), mesh.normals[i]), 1, 1e-5);
        }
        double deepest_mm = 0;
        for (const glm::uvec3& t : mesh.triangles) {
            const glm::vec3 middle =
                (mesh.positions_mm[t.x] + mesh.positions_mm[t.y] + mesh.positions_mm[t.z]) / 3.0f;
            deepest_mm = std::max(deepest_mm, 10 - static_cast<double>(glm::length(middle)));
        }
        EXPECT_LT(deepest_mm, detail_mm);
    }
}

TEST(Simplified, ABoxKeepsItsTwelveTriangles) {
    const Mesh box = simplified(box_mesh({-10, -20, 0}, {10, 20, 5}), 0.1);
    expect_closed(box);
    EXPECT_EQ(box.triangles.size(), 12u);
}

TEST(Simplified, NothingStaysNothing) {
    EXPECT_TRUE(simplified({}, 0.1).triangles.empty());
    Mesh folded;
    folded.positions_mm = {{0, 0, 0}, {1, 0, 0}, {1, 0, 0}};
    folded.normals.assign(3, {0, 0, 1});
    folded.triangles = {{0, 1, 2}};
    EXPECT_TRUE(simplified(folded, 0).triangles.empty());
}

}  // namespace
}  // namespace rakelight
