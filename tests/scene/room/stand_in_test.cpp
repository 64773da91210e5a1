// Things that give scale are closed solids of exactly the height they say; lofts have the volume of their
// closed form.
#include "scene/room/stand_in.h"
#include "scene/model/layout.h"

#include <gtest/gtest.h>

#include <numbers>

#include "scene/forms/forms.h"
#include "scene/geometry/loft.h"
#include "scene/geometry/solid.h"
#include "scene/reading/layout_reader.h"
#include "tests/support/mesh_checks.h"

using namespace rakelight;

namespace {

std::pair<glm::vec3, glm::vec3> bounds(const Mesh& mesh) {
    glm::vec3 low(1e9f), high(-1e9f);
    for (const auto& p : mesh.positions_mm) low = glm::min(low, p), high = glm::max(high, p);
    return {low, high};
}

Mesh whole(StandIn what, double height_mm) {
    Mesh mesh;
    for (const StandInSolid& solid : stand_in_solids(what, height_mm)) append(mesh, solid.mesh);
    return mesh;
}

Layout room_of_4_by_5_m() {
    return read_layout_text(
        "panel: {size: [600, 400]}\n"
        "fields: [{name: all, piece: 60, mix: slate}]\n"
        "room: {size: [4000, 5000, 2800], furniture: [{name: desk, at: [1200, 0, 2000], size: [800, 720, "
        "600]}]}\n",
        "room.yaml");
}

}  // namespace

TEST(Loft, EllipticCylinderAndConeHaveTheirVolumes) {
    // A polygon of n corners has n/2 sin(2 pi/n) of the circle's pi.
    constexpr int kAround = 64;
    const double polygon = kAround / 2.0 * std::sin(2 * std::numbers::pi / kAround);
    const std::vector<LoftSection> cylinder{{10, {5, 7}, {30, 20}}, {110, {5, 7}, {30, 20}}};
    const Mesh mesh = loft_mesh(cylinder, kAround, 1);
    expect_closed(mesh);
    expect_good_normals(mesh);
    EXPECT_NEAR(volume_mm3(mesh), polygon * 30 * 20 * 100, 1);
    // A frustum: h/3 (A + B + sqrt(A B)).
    const std::vector<LoftSection> cone{{0, {}, {40, 40}}, {90, {}, {10, 10}}};
    EXPECT_NEAR(volume_mm3(loft_mesh(cone, kAround, 1)), polygon * 90 / 3 * (1600 + 100 + 400), 1);
}

TEST(Loft, ASlabIsItsBoxButForTheEasedArrises) {
    const Mesh mesh = slab_mesh({-100, 50, -40}, {300, 110, 60}, 4);
    expect_closed(mesh);
    const auto [low, high] = bounds(mesh);
    EXPECT_EQ(low, glm::vec3(-100, 50, -40));
    EXPECT_EQ(high, glm::vec3(300, 110, 60));
    const double box = 400 * 60 * 100;
    EXPECT_LT(volume_mm3(mesh), box);
    EXPECT_GT(volume_mm3(mesh), 0.97 * box);
}

TEST(StandIn, EachStandsOnTheFloorAndIsAsTallAsItSays) {
    for (const StandIn what : {StandIn::figure, StandIn::bench, StandIn::chair})
        for (const double share : {1.0, 0.9}) {
            const double height = share * usual_height_mm(what);
            const Mesh mesh = whole(what, height);
            const auto [low, high] = bounds(mesh);
            EXPECT_NEAR(low.y, 0, 1e-3);
            EXPECT_NEAR(high.y, height, 1e-3);
            const glm::dvec2 foot = footprint_mm(what, height);
            EXPECT_LE(high.x - low.x, foot.x + 0.01);
            EXPECT_LE(high.z - low.z, foot.y + 0.01);
            EXPECT_GT(high.x - low.x, 0.8 * foot.x);
            EXPECT_GT(volume_mm3(mesh), 0);
            expect_good_normals(mesh);
        }
}

TEST(StandIn, TheFigureHasTheProportionsOfTheMeanBody) {
    // Drillis and Contini (1966): shoulders 0.259 of the height between the joints, a foot 0.152 long; the
    // fingertips hang at 0.377. Widths of the clothed body lie outside the joints.
    const double height = 1700;
    const Mesh mesh = whole(StandIn::figure, height);
    float shoulder = 0, toe = 1e9f, heel = -1e9f;
    for (const auto& p : mesh.positions_mm) {
        if (std::abs(p.y - 0.79 * height) < 20) shoulder = std::max(shoulder, std::abs(p.x));
        // One foot: the other stands half a step behind it.
        if (p.y < 0.03 * height && p.x > 0) toe = std::min(toe, p.z), heel = std::max(heel, p.z);
    }
    EXPECT_GT(2 * shoulder, 0.259 * height);
    EXPECT_LT(2 * shoulder, 0.32 * height);
    EXPECT_NEAR(heel - toe, 0.152 * height, 0.005 * height);
}

TEST(StandIn, SaysWhyItCannotStandThere) {
    const Layout layout = room_of_4_by_5_m();
    EXPECT_EQ(why_no_stand_in({StandIn::figure, {-800, 1500}, 0, 0}, layout), "");
    EXPECT_NE(why_no_stand_in({StandIn::figure, {1950, 1500}, 0, 0}, layout).find("outside the room"),
              std::string::npos);
    EXPECT_NE(
        why_no_stand_in({StandIn::figure, {1200, 2000}, 0, 0}, layout).find("in desk, expected a free place"),
        std::string::npos);
    EXPECT_NE(why_no_stand_in({StandIn::figure, {0, 60}, 0, 0}, layout), "");  // in wall or panel
    EXPECT_EQ(why_no_stand_in({StandIn::bench, {-300, 2500}, 0, 0}, layout), "");
    EXPECT_NE(why_no_stand_in({StandIn::bench, {-1500, 2500}, 0, 0}, layout), "");  // 650 mm to each side
    EXPECT_EQ(why_no_stand_in({StandIn::bench, {-1500, 2500}, 90, 0}, layout), "");
}
