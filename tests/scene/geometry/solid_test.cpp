#include "scene/geometry/solid.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "scene/room/joinery.h"

namespace rakelight {
namespace {

// A sphere of rings and slices, wound outward; volume within 2 / rings^2 of the true one.
Mesh sphere(double radius, int rings, const glm::dvec3& middle) {
    Mesh mesh;
    const int slices = 2 * rings;
    for (int r = 0; r <= rings; ++r)
        for (int s = 0; s < slices; ++s) {
            const double down = std::numbers::pi * r / rings, round = 2 * std::numbers::pi * s / slices;
            const glm::dvec3 n(std::sin(down) * std::cos(round), std::sin(down) * std::sin(round),
                               std::cos(down));
            mesh.positions_mm.push_back(glm::vec3(middle + radius * n));
            mesh.normals.push_back(glm::vec3(n));
        }
    const auto at = [&](int r, int s) { return static_cast<std::uint32_t>(r * slices + s % slices); };
    for (int r = 0; r < rings; ++r)
        for (int s = 0; s < slices; ++s) {
            mesh.triangles.push_back({at(r, s), at(r + 1, s), at(r + 1, s + 1)});
            mesh.triangles.push_back({at(r, s), at(r + 1, s + 1), at(r, s + 1)});
        }
    return mesh;
}

TEST(Solid, BoxIsItsSides) {
    const SolidMeasure box = measure_solid(box_mesh({10, 20, -3}, {40, 60, 9}));
    EXPECT_NEAR(box.volume_mm3, 30 * 40 * 12, 0.01);
    EXPECT_NEAR(box.centre_mm.x, 25, 1e-4);
    EXPECT_NEAR(box.centre_mm.y, 40, 1e-4);
    EXPECT_NEAR(box.centre_mm.z, 3, 1e-4);
}

TEST(Solid, BoxIsCutAnywhere) {
    const Mesh box = box_mesh({500, 500, 2}, {530, 540, 12});
    EXPECT_NEAR(volume_below_mm3(box, 1), 0, 1e-6);
    EXPECT_NEAR(volume_below_mm3(box, 2), 0, 1e-6);
    for (const double level : {3.0, 7.25, 11.99})
        EXPECT_NEAR(volume_below_mm3(box, level), 1200 * (level - 2), 0.01);
    EXPECT_NEAR(volume_below_mm3(box, 12), 12000, 0.01);
    EXPECT_NEAR(volume_below_mm3(box, 99), 12000, 0.01);
}

// Archimedes, On the Sphere and Cylinder: a cap of height h holds pi h^2 (3 r - h) / 3.
TEST(Solid, SphereIsCutIntoCaps) {
    const double r = 20;
    const Mesh ball = sphere(r, 120, {300, 100, 15});
    const SolidMeasure whole = measure_solid(ball);
    EXPECT_NEAR(whole.volume_mm3, 4.0 / 3 * std::numbers::pi * r * r * r, 0.001 * whole.volume_mm3);
    EXPECT_NEAR(whole.centre_mm.z, 15, 1e-3);
    for (const double h : {4.0, 13.0, 20.0, 33.0}) {
        const double cap = std::numbers::pi * h * h * (3 * r - h) / 3;
        EXPECT_NEAR(volume_below_mm3(ball, 15 - r + h), cap, 0.002 * cap) << h;
    }
}

TEST(Solid, NothingWeighsNothing) {
    EXPECT_EQ(measure_solid({}).volume_mm3, 0);
    EXPECT_EQ(volume_below_mm3({}, 5), 0);
}

}  // namespace
}  // namespace rakelight
