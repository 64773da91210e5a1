#include "scene/forms/joint_tint.h"

#include <gtest/gtest.h>

#include <map>

#include "scene/forms/joint_surface.h"
#include "scene/geometry/region.h"
#include "scene/model/layout.h"
#include "scene/model/levels.h"
#include "tests/support/laying_samples.h"

namespace rakelight {
namespace {

Layout island() {
    Layout layout = sample_layout(Opus::musivum, 10, 8, 1.6);
    layout.panel.width_mm = 240;
    layout.panel.height_mm = 180;
    layout.fields[0].guides = {smooth_stroke({{-10, 60}, {120, 90}, {250, 50}}, false)};
    add_figure(layout, smooth_stroke({{60, 60}, {120, 40}, {190, 70}, {170, 130}, {100, 140}}, true)).grout =
        kOther;
    return layout;
}

double away_mm(const Laying& laying, std::uint32_t field, const glm::dvec2& p) {
    double d = 1e9;
    for (const auto& piece : laying.pieces) {
        if (piece.field != field || glm::distance(piece.outline_mm[0], p) > 30) continue;
        double own = 1e9;
        for (std::size_t i = 0; i < piece.outline_mm.size(); ++i)
            own = std::min(own, distance_mm(p, piece.outline_mm[i],
                                            piece.outline_mm[(i + 1) % piece.outline_mm.size()]));
        d = std::min(d, contains(piece.outline_mm, p) ? -own : own);
    }
    return d;
}

// The rule of the trade: a boundary joint is of one zone, and the seam runs along its far side.
TEST(JointTint, ABoundaryJointIsOfOneZone) {
    const Layout layout = island();
    const Laying laying = lay(layout);
    const JointSurface joints = form_joints(layout, laying);
    int checked = 0;
    for (std::size_t t = 0; t < joints.mesh.triangles.size(); ++t) {
        glm::dvec2 c(0);
        for (int k = 0; k < 3; ++k)
            c += glm::dvec2(joints.mesh.positions_mm[joints.mesh.triangles[t][k]]) / 3.0;
        if (!contains(grow(region_of(layout.fields[0].outline.points_mm), 25).rings[0], c)) continue;
        const double figure = away_mm(laying, 0, c), ground = away_mm(laying, 1, c);
        if (figure < 0 || ground < 0.05) continue;  // hidden under a piece, or the far side itself
        if (figure > layout.fields[0].joint_mm) continue;
        ++checked;
        ASSERT_EQ(joints.triangle_tint[t], 2u) << c.x << ' ' << c.y << ' ' << figure << ' ' << ground;
    }
    EXPECT_GT(checked, 2000);
}

TEST(JointTint, TheSeamIsACleanLineAtAFixedReach) {
    const Layout layout = island();
    const Laying laying = lay(layout);
    const JointSurface joints = form_joints(layout, laying);
    std::map<std::uint32_t, int> tints;  // a bit for each tint that a vertex is of
    for (std::size_t t = 0; t < joints.mesh.triangles.size(); ++t)
        for (int k = 0; k < 3; ++k) tints[joints.mesh.triangles[t][k]] |= 1 << joints.triangle_tint[t];
    const double reach = static_cast<double>(reach_mm(layout.fields[0], layout.fields[1]));
    EXPECT_GT(reach, layout.fields[0].joint_mm);  // under the pieces beyond
    int seam = 0, exact = 0;
    for (const auto& [v, bits] : tints) {
        if (bits != 5) continue;
        const glm::dvec2 p(joints.mesh.positions_mm[v]);
        const double figure = away_mm(laying, 0, p);
        ++seam;
        exact += std::abs(figure - reach) < 0.06;
        // Thresholds of our own, only to catch a slip. Lattice steps would be 0.8 mm; only in pockets, where
        // no rule of distance holds, may it stray.
        if (away_mm(laying, 1, p) < 1) {
            EXPECT_NEAR(figure, reach, 0.4);
        }
    }
    EXPECT_GT(seam, 300);
    EXPECT_GT(exact, seam * 9 / 10);
}

TEST(JointTint, EachTintByItselfIsWhole) {
    const Layout layout = island();
    const JointSurface joints = form_joints(layout, lay(layout));
    std::size_t sum = 0;
    for (std::uint32_t tint = 0; tint < layout.tints.size(); ++tint) {
        const Mesh part = part_of(joints, tint);
        sum += part.triangles.size();
        for (const auto& t : part.triangles)
            for (int k = 0; k < 3; ++k) ASSERT_LT(t[k], part.positions_mm.size());
        ASSERT_EQ(part.positions_mm.size(), part.normals.size());
    }
    EXPECT_EQ(sum, joints.mesh.triangles.size());
}

TEST(JointTint, ShadowJointsAndFillAreAsDeepAsAsked) {
    for (const bool by_fill : {false, true}) {
        Layout layout = sample_layout(Opus::regulatum, 20, 20, 4);
        layout.panel.width_mm = layout.panel.height_mm = 120;
        Field& field = layout.fields[0];
        field.tilt_deg = field.lippage_mm = 0;
        field.recess_mm = 3;
        if (by_fill) field.fill = 0.25;  // of 6 mm: 4.5 below the faces
        const double depth = by_fill ? 4.5 : 3;
        const Laying laying = lay(layout);
        const JointSurface joints = form_joints(layout, laying);
        double deepest = 0;
        for (const auto& p : joints.mesh.positions_mm)
            if (p.z > 0.1f && away_mm(laying, 0, glm::dvec2(p)) > 0)
                deepest = std::max(deepest, face_plane_mm(layout) - static_cast<double>(p.z));
        EXPECT_NEAR(deepest, depth, 0.2);  // grain
    }
}

}  // namespace
}  // namespace rakelight
