// A room in many lights is one world as long as only lights change, and the same world as one built afresh.
#include "output/preview/lit_rooms.h"
#include "scene/model/layout.h"

#include <gtest/gtest.h>

#include "renderer/light_meter.h"
#include "scene/light/with_light.h"
#include "scene/reading/layout_reader.h"
#include "tests/support/test_folder.h"

namespace rakelight {
namespace {

constexpr const char* kPanel =
    "panel: {name: trial, size: [100, 80], frame: {material: oak}}\n"
    "fields: [{name: all, piece: 20, joint: 1.5, mix: {deep-teal: 50 %, slate: 50 %}}]\n";

// Of known set-ups these have lamps alone, or windows with glazing bars.
const std::vector<std::string> kLamps{"", "gallery spot", "rake from top", "evening lamp"};
constexpr const char* kBarred = "sun patch";

void expect_as_built_afresh(const LitRooms::Room& room, const Layout& all, const Laying& laying,
                            const std::string& light) {
    const Layout lit = light.empty() ? all : with_light(all, light);
    const World fresh = build_world(lit, laying);
    EXPECT_EQ(room.layout.on.name, lit.on.name);
    EXPECT_EQ(room.world.positions_mm, fresh.positions_mm) << light;
    EXPECT_EQ(room.world.triangles, fresh.triangles) << light;
    EXPECT_EQ(room.world.materials, fresh.materials) << light;
    EXPECT_EQ(room.world.groups, fresh.groups) << light;
    EXPECT_EQ(room.world.emitter_names, fresh.emitter_names) << light;
    EXPECT_EQ(panel_illuminance_xyz(room.world, room.bvh, room.world.emitters),
              panel_illuminance_xyz(fresh, Bvh(fresh), fresh.emitters))
        << light;
}

TEST(LitRooms, OneWorldServesAllLamps) {
    const Layout layout = read_layout_text(kPanel, "trial.yaml");
    const Laying laying = lay(layout);
    LitRooms rooms(layout, laying);
    for (int walk = 0; walk < 2; ++walk)  // as a preview does, that meters all and then traces all
        for (const std::string& light : kLamps)
            expect_as_built_afresh(rooms.in(light), layout, laying, light);
    EXPECT_EQ(rooms.worlds_built(), 1);
}

TEST(LitRooms, GlazingBarsWantAWorldOfTheirOwn) {
    const Layout layout = read_layout_text(kPanel, "trial.yaml");
    const Laying laying = lay(layout);
    LitRooms rooms(layout, laying);
    const std::vector<std::string> lights{"", kBarred, "gallery spot", kBarred};
    const auto shared = rooms.sharing_a_world(lights);
    EXPECT_EQ(shared, (std::vector<std::vector<std::size_t>>{{0, 2}, {1, 3}}));
    for (const auto& in_one_world : shared)
        for (int walk = 0; walk < 2; ++walk)
            for (const std::size_t i : in_one_world)
                expect_as_built_afresh(rooms.in(lights[i]), layout, laying, lights[i]);
    EXPECT_EQ(rooms.worlds_built(), 2);
}

// The panel beside hangs in each of them as where it is laid anew.
TEST(LitRooms, PanelBesideIsThere) {
    const test::Folder folder;
    folder.write("right.yaml", kPanel);
    std::string left = kPanel;
    left += "beside: {layout: right.yaml, gap: 30}\n";
    const Layout layout = read_layout(folder.write("left.yaml", left));
    const Laying laying = lay(layout);
    LitRooms rooms(layout, laying);
    ASSERT_TRUE(lay_beside(layout).has_value());
    for (const std::string light : {"", kBarred})
        expect_as_built_afresh(rooms.in(light), layout, laying, light);
}

}  // namespace
}  // namespace rakelight
