#include "scene/forms/joint_surface.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "scene/forms/joint_weave.h"
#include "scene/geometry/region.h"
#include "scene/model/layout.h"
#include "scene/model/levels.h"
#include "tests/support/laying_samples.h"
#include "tests/support/mesh_checks.h"

namespace rakelight {
namespace {

Layout two_fields() {
    Layout layout = sample_layout(Opus::tessellatum, 12, 10, 2);
    layout.panel.width_mm = 200;
    layout.panel.height_mm = 120;
    layout.fields[0].recess_mm = 1.2;
    layout.fields[0].lippage_mm = 0;
    layout.fields[0].tilt_deg = 0;
    add_figure(layout, {.points_mm = {{0, 0}, {100, 0}, {100, 120}, {0, 120}}}).grout = kOther;
    return layout;
}

TEST(JointSurface, LiesBelowTheFacesByTheRecess) {
    const Layout layout = two_fields();
    const Laying laying = lay(layout);
    const JointSurface joints = form_joints(layout, laying);
    expect_good_normals(joints.mesh);
    ASSERT_EQ(joints.triangle_tint.size(), joints.mesh.triangles.size());
    EXPECT_LT(joints.mesh.triangles.size(), 1'100'000u);
    const double plane = face_plane_mm(layout);
    double deepest = 0;
    int seen = 0;
    for (std::size_t i = 0; i < joints.mesh.positions_mm.size(); ++i) {
        const glm::vec3 p = joints.mesh.positions_mm[i];
        if (p.z < 0.1f) continue;  // foot of the skirt
        bool under = false;
        for (const auto& piece : laying.pieces)
            if (glm::distance(piece.outline_mm[0], glm::dvec2(p)) < 40 &&
                contains(piece.outline_mm, glm::dvec2(p)))
                under = true;
        if (under) continue;
        ++seen;
        const double below = plane - static_cast<double>(p.z);
        deepest = std::max(deepest, below);
        EXPECT_GT(below, 0.5);  // never up to the faces: recess less the climb and the grain
        EXPECT_LT(below, 1.4);
    }
    EXPECT_GT(seen, 1000);
    EXPECT_GT(deepest, 1.1);
}

// Brute force: the nearest side of all pieces, negative within one.
TEST(JointSurface, KnowsHowFarItsPiecesAre) {
    const Layout layout = two_fields();
    const Laying laying = lay(layout);
    const JointSurface joints = form_joints(layout, laying);
    ASSERT_EQ(joints.mesh.edge_mm.size(), joints.mesh.positions_mm.size());
    int judged = 0;
    for (std::size_t i = 0; i < joints.mesh.positions_mm.size(); i += 37) {
        const glm::dvec2 p(joints.mesh.positions_mm[i]);
        const bool border = p.x < 1 || p.y < 1 || p.x > 199 || p.y > 119 || std::abs(p.x - 100) < 4;
        if (border) continue;  // the skirt, and the seam between two tints, which is cut through triangles
        double nearest = 1e9;
        for (const auto& piece : laying.pieces) {
            double mm = 1e9;
            for (const auto& [a, b] : edges(piece.outline_mm)) mm = std::min(mm, distance_mm(p, a, b));
            nearest = std::min(nearest, contains(piece.outline_mm, p) ? -mm : mm);
        }
        ++judged;
        EXPECT_NEAR(joints.mesh.edge_mm[i], nearest, 1e-3);
    }
    EXPECT_GT(judged, 100);
}

TEST(JointSurface, BoundaryJointIsOfTheFigure) {
    const Layout layout = two_fields();
    const Laying laying = lay(layout);
    const JointSurface joints = form_joints(layout, laying);
    int figure = 0, ground = 0;
    for (std::size_t t = 0; t < joints.mesh.triangles.size(); ++t) {
        glm::vec3 c(0);
        for (int k = 0; k < 3; ++k) c += joints.mesh.positions_mm[joints.mesh.triangles[t][k]] / 3.0f;
        if (c.x > 99.6f && c.x < 100.4f && c.y > 5 && c.y < 115)
            (joints.triangle_tint[t] == 2 ? figure : ground) += 1;
        if (c.x < 97 || c.x > 104) {
            EXPECT_EQ(joints.triangle_tint[t], c.x < 97 ? 2u : 0u);
        }
    }
    EXPECT_GT(figure, 200);
    EXPECT_EQ(ground, 0);
}

TEST(JointSurface, OpenJointsShowTheBedFarDown) {
    Layout layout = two_fields();
    for (auto& field : layout.fields) field.grout.reset();
    const JointSurface joints = form_joints(layout, lay(layout));
    for (const auto tint : joints.triangle_tint) EXPECT_EQ(tint, 1u);
    float highest = 0;
    for (const auto& p : joints.mesh.positions_mm) highest = std::max(highest, p.z);
    EXPECT_LT(highest, face_plane_mm(layout) - 6 * 2.0 / 3 + 1);  // a third up a 6 mm piece, and the climb
}

// A gutter that runs aslant either way: no triangle climbs along it, so that raking light finds no teeth.
TEST(JointSurface, SlopesRunStraightAlongASlantingJoint) {
    const Layout layout = two_fields();
    for (const int way : {-1, 1}) {
        const Lattice lattice{{0, 0}, 0.8, 21, 21};
        const std::vector<NearFields> fields(lattice.count());
        std::vector<glm::vec3> at_mm;
        for (int y = 0; y < lattice.rows; ++y)
            for (int x = 0; x < lattice.columns; ++x) {
                const glm::vec2 p(lattice.at(x, y));
                const float across = p.x - 8.1f + static_cast<float>(way) * (p.y - 8);
                at_mm.emplace_back(p, 1 + 0.2f * across * across);
            }
        const JointSurface joints = weave_joints(layout, {lattice,
                                                          fields,
                                                          at_mm,
                                                          std::vector<float>(lattice.count()),
                                                          std::vector<char>(lattice.count()),
                                                          {0}});
        int sheet = 0;
        for (const auto& t : joints.mesh.triangles) {
            const glm::vec3 a = joints.mesh.positions_mm[t.x];
            const glm::vec3 n = glm::normalize(
                glm::cross(joints.mesh.positions_mm[t.y] - a, joints.mesh.positions_mm[t.z] - a));
            if (n.z < 0.01f) continue;  // the skirt
            ++sheet;
            EXPECT_NEAR(n.x, static_cast<float>(way) * n.y, 1e-3f);
        }
        EXPECT_EQ(sheet, 2 * 20 * 20);
    }
}

TEST(JointSurface, NarrowJointsOfALargePanelAreNoDeeper) {
    // However wide the sheet's step: what of it is not under a piece lies the recess below, less the climb.
    Layout layout = sample_layout(Opus::regulatum, 60, 50, 0.4);
    layout.panel.width_mm = 1500;
    layout.panel.height_mm = 1100;
    layout.fields[0].recess_mm = 0.3;
    layout.fields[0].lippage_mm = 0;
    layout.fields[0].tilt_deg = 0;
    const Laying laying = lay(layout);
    const JointSurface joints = form_joints(layout, laying);
    EXPECT_LT(joints.mesh.triangles.size(), 1'100'000u);
    const double plane = face_plane_mm(layout);
    std::vector<std::vector<const Piece*>> columns(1501);
    for (const auto& piece : laying.pieces) {
        const Box box = bounds(piece.outline_mm);
        for (auto x = static_cast<std::size_t>(box.low.x); x <= static_cast<std::size_t>(box.high.x); ++x)
            columns[x].push_back(&piece);
    }
    int seen = 0;
    for (const auto& t : joints.mesh.triangles) {
        const glm::dvec3 a(joints.mesh.positions_mm[t.x]), b(joints.mesh.positions_mm[t.y]),
            c(joints.mesh.positions_mm[t.z]);
        if (std::min({a.z, b.z, c.z}) < 0.1 || a.y > 300) continue;  // the skirt; and a third is enough
        for (int i = 1; i < 6; ++i)
            for (int j = 1; i + j < 6; ++j) {
                const glm::dvec3 p = a + (b - a) * (i / 6.0) + (c - a) * (j / 6.0);
                const auto& near = columns[static_cast<std::size_t>(std::clamp(p.x, 0.0, 1500.0))];
                if (std::any_of(near.begin(), near.end(), [&](const Piece* piece) {
                        return contains(piece->outline_mm, glm::dvec2(p));
                    }))
                    continue;
                ++seen;
                // Thresholds of our own, only to catch a slip.
                EXPECT_LT(plane - p.z, 0.45);
                EXPECT_GT(plane - p.z, 0.1);
            }
    }
    EXPECT_GT(seen, 1000);
}

}  // namespace
}  // namespace rakelight
