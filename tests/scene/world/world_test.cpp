#include "scene/world/world.h"

#include <gtest/gtest.h>

#include "materials/maths/hash.h"
#include "scene/model/layout.h"
#include "scene/reading/layout_reader.h"

using namespace rakelight;

namespace {

constexpr const char* kLayout = R"(
panel: {name: trial, size: [100, 80], frame: {material: oak}}
fields:
  - {name: all, piece: 10, joint: 1.5, mix: {deep-teal: 50 %, slate: 50 %}, bed: white, grout: charcoal}
stones:
  - {material: pumice, at: [50, 40], size: [30, 24, 16], proud: 12}
)";

}  // namespace

TEST(World, HoldsEveryPieceOnceAndRefersOnlyToWhatIsThere) {
    const Layout layout = read_layout_text(kLayout, "trial.yaml");
    const Laying laying = lay(layout);
    const World world = build_world(layout, laying);
    ASSERT_EQ(world.triangles.size(), world.packed_normals.size());
    std::vector<int> seen(laying.pieces.size() + laying.stones.size() + 1, 0);
    for (const Object& object : world.objects) {
        ASSERT_LT(object.surface, world.surfaces.size());
        ASSERT_GE(object.material, 1);
        ASSERT_LE(object.material, static_cast<int>(world.materials.size()));
        ++seen[object.piece];
    }
    for (std::size_t piece = 1; piece < seen.size(); ++piece) EXPECT_EQ(seen[piece], 1) << piece;
    for (const auto& t : world.triangles)
        for (int corner = 0; corner < 3; ++corner) ASSERT_LT(t[corner], world.positions_mm.size() - 1);
    for (const auto& s : world.packed_normals) ASSERT_LT(s.object, world.objects.size());
    EXPECT_EQ(world.emitters.size(), layout.on.lamps.size());
}

// Scattered light meets leaf no sharper than GGX 0.3 (as roughened() promises), on glass and on stone that
// has no face of its own; the eye meets it as sharp as it is.
TEST(World, LeafIsBluntToScatteredLight) {
    const Layout layout = read_layout_text(R"(
panel: {name: gilt, size: [60, 60]}
stock:
  gilt-stone: {like: basalt, leaf: gold, leaf roughness: 0.05}
  gilt-glass: {like: clear, leaf: gold, leaf roughness: 0.05}
fields:
  - {name: all, piece: 10, joint: 1.5, mix: {gilt-stone: 50 %, gilt-glass: 50 %}, bed: white, grout: charcoal}
)",
                                           "gilt.yaml");
    const World world = build_world(layout, lay(layout));
    int stone = 0, glass = 0;
    for (const Object& object : world.objects) {
        const Surface& seen = world.surfaces[object.surface];
        if (seen.kind != Surface::Base::leaf) continue;
        ++(seen.interface ? glass : stone);
        const Surface& met = world.surfaces[object.roughened_surface];
        ASSERT_EQ(met.kind, Surface::Base::leaf);
        EXPECT_LT(seen.leaf.table->slopes.alpha, 0.1f);
        EXPECT_GE(met.leaf.table->slopes.alpha, 0.3f);
    }
    EXPECT_GT(stone, 0);
    EXPECT_GT(glass, 0);
}

TEST(World, PanelHangsWhereTheLayoutSays) {
    Layout layout = read_layout_text(kLayout, "trial.yaml");
    layout.panel.centre_height_mm = 1500;
    const World world = build_world(layout, lay(layout));
    EXPECT_EQ(world.origin_mm.y, 1500);
    float lowest = 0;
    for (const auto& p : world.positions_mm) lowest = std::min(lowest, p.y);
    EXPECT_FLOAT_EQ(lowest, -1500);  // the floor
}

TEST(World, LeanTurnsThePanelIntoTheRoom) {
    Layout layout = read_layout_text(kLayout, "trial.yaml");
    layout.panel.lean_deg = 5;
    const World world = build_world(layout, lay(layout));
    EXPECT_NEAR(world.panel_normal.y, -std::sin(glm::radians(5.0)), 1e-6);
    EXPECT_NEAR(world.panel_normal.z, std::cos(glm::radians(5.0)), 1e-6);
}

// Half a step of 2/65535 in x and y is at most that times sqrt(6) in the unfolded vector, whose length is at
// least 1/sqrt(3): 6.5e-5 rad or 0.0037 degrees (closed form; scheme of Cigolle et al. 2014).
TEST(World, NormalsSurvivePacking) {
    for (int i = 0; i < 2000; ++i) {
        Rng rng(i);
        const glm::vec3 n = glm::normalize(
            glm::vec3(rng.within(-1, 1), rng.within(-1, 1), rng.within(-1, 1)) + glm::vec3(1e-6f));
        const glm::vec3 back = glm::normalize(unpack_normal(pack_normal(n)));
        EXPECT_LT(glm::degrees(std::asin(glm::length(glm::cross(n, back)))), 0.0038);
    }
}
