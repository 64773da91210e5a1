// Pieces as small mirrors, against the meshes that are traced.
#include "output/glare/measures/small_mirror.h"
#include "scene/model/layout.h"

#include <gtest/gtest.h>

#include "output/glare/measures/adjacent_fields.h"
#include "scene/forms/forms.h"
#include "scene/geometry/region.h"
#include "scene/reading/layout_reader.h"
#include "scene/room/panel_frame.h"

namespace rakelight {
namespace {

Layout sample(const std::string& more) {
    return read_layout_text(
        "panel: {size: [120, 90]}\n"
        "fields:\n"
        "  - {name: left, outline: [[0, 0], [60, 0], [60, 90], [0, 90]], piece: 12, mix: deep-teal, " +
            more +
            "}\n"
            "  - {name: right, piece: 12, mix: foam-white, " +
            more + "}\n",
        "sample.yaml");
}

// Mean slope of the upper side of a mesh, its triangles weighted by their area in plan; the edge left out.
glm::dvec2 mean_slope(const Mesh& mesh, const glm::dvec2& heart, double within) {
    glm::dvec2 sum(0);
    double area = 0;
    for (const auto& t : mesh.triangles) {
        const glm::dvec3 a(mesh.positions_mm[t.x]), b(mesh.positions_mm[t.y]), c(mesh.positions_mm[t.z]);
        const glm::dvec3 n = glm::cross(b - a, c - a);
        const glm::dvec2 middle = glm::dvec2(a + b + c) / 3.0 - heart;
        if (n.z <= 0 || std::max(std::abs(middle.x), std::abs(middle.y)) > within) continue;
        sum += -glm::dvec2(n) / 2.0;
        area += n.z / 2;
    }
    return sum / area;
}

TEST(SmallMirror, HasTheSlopeOfTheFaceThatIsTraced) {
    const Layout layout = sample("tilt: 3");
    const Laying laying = lay(layout);
    const auto mirrors = small_mirrors(layout, laying, 20);
    ASSERT_EQ(mirrors.size(), laying.pieces.size());
    double off = 0, worst = 0, tilt = 0;
    int whole = 0;
    for (std::size_t i = 0; i < mirrors.size(); ++i) {
        const Piece& piece = laying.pieces[i];
        const glm::dvec2 size = bounds(piece.outline_mm).size();
        if (std::min(size.x, size.y) < 9) continue;  // of a sliver's face the edges leave nothing
        const Mesh mesh = form_piece(piece, layout.stock[piece.material]);
        const glm::dvec2 middle = mean_slope(mesh, centroid(piece.outline_mm), 3);
        const double error = glm::degrees(glm::length(middle - mirrors[i].slope));
        ++whole;
        off += error;
        worst = std::max(worst, error);
        tilt = std::max(tilt, glm::degrees(glm::length(mirrors[i].slope)));
    }
    ASSERT_GT(whole, 20);
    EXPECT_GT(tilt, 4);  // they do lean
    EXPECT_LT(off / whole, 0.7);
    EXPECT_LT(worst, 3);  // where a shell is broken out of the face
}

// A face whose middle stands d above the middles of its sides, a away, is a paraboloid that falls by
// 2 d / a^2 for every millimetre.
TEST(SmallMirror, ABulgeIsThatOfItsParaboloid) {
    const Layout flat = sample("tilt: 0.2, setting: reverse, form: sawn, dome: 0");
    const Layout domed = sample("tilt: 0.2, setting: reverse, form: sawn, dome: 0.5");
    const Laying laying = lay(domed);
    const auto without = small_mirrors(flat, lay(flat), 20), with = small_mirrors(domed, laying, 20);
    ASSERT_EQ(without.size(), with.size());
    for (std::size_t i = 0; i < with.size(); ++i) {
        const Ring& outline = laying.pieces[i].outline_mm;
        double round = 0;
        for (std::size_t k = 0; k < outline.size(); ++k)
            round += glm::distance(outline[k], outline[(k + 1) % outline.size()]);
        const double half = 2 * area_mm2(outline) / round;
        EXPECT_NEAR(with[i].bulge_per_mm - without[i].bulge_per_mm, 2 * 0.5 / (half * half),
                    0.02 / (half * half) + 1e-4);
    }
}

TEST(SmallMirror, KnowsDarkFromLightAndItsSurroundings) {
    const Layout layout = sample("tilt: 1");
    const auto near = small_mirrors(layout, lay(layout), 12), far = small_mirrors(layout, lay(layout), 500);
    for (std::size_t i = 0; i < near.size(); ++i) {
        EXPECT_EQ(near[i].body > 0.4, near[i].field == 1);  // white glass, near-black glass
        EXPECT_NEAR(far[i].body_round, far[0].body_round, 1e-9);
    }
    EXPECT_GT(near.back().body_round, 3 * near.front().body_round);
}

TEST(FieldBorders, FindsFieldsThatMeet) {
    const Layout layout = sample("tilt: 1");
    const auto borders = field_borders(layout.fields, lay(layout));
    ASSERT_EQ(borders.size(), 1u);
    EXPECT_EQ(borders[0].one, 0u);
    EXPECT_EQ(borders[0].other, 1u);
    EXPECT_GT(borders[0].pairs, 5);
}

// The foot stays at the wall: leaning by t brings the top out by the height times sin t.
TEST(PanelFrame, LeansAboutItsFoot) {
    const Layout layout = sample("tilt: 1");
    const PanelFrame flat = panel_frame(layout.panel, 0, 1450), leaning = panel_frame(layout.panel, 6, 1450);
    EXPECT_NEAR(flat.origin_mm.z, leaning.origin_mm.z, 1e-9);
    const glm::dvec3 top = leaning.origin_mm + leaning.to_room({0, 90, 0});
    EXPECT_NEAR(top.z - leaning.origin_mm.z, 90 * std::sin(glm::radians(6.0)), 1e-9);
    EXPECT_NEAR(glm::length(leaning.to_panel_mm(top) - glm::dvec3(0, 90, 0)), 0, 1e-9);
}

}  // namespace
}  // namespace rakelight
