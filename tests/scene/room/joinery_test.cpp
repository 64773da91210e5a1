#include "scene/room/joinery.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "tests/support/mesh_checks.h"

using namespace rakelight;

namespace {

// Volume of a closed mesh by the divergence theorem.
double volume_mm3(const Mesh& mesh) {
    double volume = 0;
    for (const auto& t : mesh.triangles)
        volume +=
            glm::dot(glm::dvec3(mesh.positions_mm[t.x]),
                     glm::cross(glm::dvec3(mesh.positions_mm[t.y]), glm::dvec3(mesh.positions_mm[t.z]))) /
            6;
    return volume;
}

void expect_normals_agree_with_winding(const Mesh& mesh) {
    for (const auto& t : mesh.triangles) {
        const glm::vec3 flat = glm::cross(mesh.positions_mm[t.y] - mesh.positions_mm[t.x],
                                          mesh.positions_mm[t.z] - mesh.positions_mm[t.x]);
        for (const auto corner : {t.x, t.y, t.z}) EXPECT_GT(glm::dot(flat, mesh.normals[corner]), 0);
    }
}

}  // namespace

TEST(Joinery, BoxHasItsVolumeAndLooksOutward) {
    const Mesh box = box_mesh({-1, 2, 3}, {4, 6, 10});
    EXPECT_NEAR(volume_mm3(box), 5 * 4 * 7, 1e-3);
    expect_normals_agree_with_winding(box);
}

TEST(Joinery, RectangleFacesItsNormal) {
    const Mesh r = rectangle_mesh({0, 0, 0}, {2, 0, 0}, {0, 3, 0});
    EXPECT_EQ(r.normals[0], glm::vec3(0, 0, 1));
    expect_normals_agree_with_winding(r);
}

// Four mitred bars close into a ring: outer box less opening, less what easing two arrises of radius r takes
// off.
TEST(Joinery, FrameBarsCloseIntoARing) {
    double volume = 0;
    for (int side = 0; side < kFrameSides; ++side) {
        const Mesh bar = frame_bar_mesh(side, 600, 450, 20, -12, 18);
        volume += volume_mm3(bar);
        expect_normals_agree_with_winding(bar);
    }
    const double ring = (640.0 * 490 - 600.0 * 450) * 30;
    EXPECT_LT(volume, ring);
    const double eased = 2 * (1 - 3.14159265 / 4) * 1.5 * 1.5 * 2 * (640 + 490);
    const double sawn = 4 * kMitreGap_mm * 20 * std::numbers::sqrt2 * 30;  // four mitres stand open
    EXPECT_NEAR(volume, ring - eased - sawn,
                0.15 * eased);  // the round is four straight steps; the mitres differ a little
}

TEST(Joinery, FrameBarsAreClosedAndCutAt45Degrees) {
    for (int side = 0; side < kFrameSides; ++side) {
        const Mesh bar = frame_bar_mesh(side, 600, 450, 20, -12, 18);
        expect_closed(bar);
        expect_good_normals(bar);
        int cuts = 0;
        for (const auto& t : bar.triangles) {
            const glm::vec3 n = glm::normalize(glm::cross(bar.positions_mm[t.y] - bar.positions_mm[t.x],
                                                          bar.positions_mm[t.z] - bar.positions_mm[t.x]));
            if (std::abs(std::abs(n.x) - std::abs(n.y)) > 1e-3f || std::abs(n.z) > 1e-3f) continue;
            ++cuts;  // square to the diagonal of the corner, half a gap off it
            const glm::vec3& p = bar.positions_mm[t.x];
            const float off = (std::abs(p.x) - 300) - (std::abs(p.y) - 225);
            EXPECT_NEAR(std::abs(off) / std::numbers::sqrt2_v<float>, kMitreGap_mm / 2, 1e-3);
        }
        EXPECT_GT(cuts, 10);
    }
}
