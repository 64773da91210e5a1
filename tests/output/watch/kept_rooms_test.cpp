// Rooms that are kept are the rooms that would be built afresh.
#include "output/watch/kept_rooms.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "scene/reading/layout_reader.h"
#include "tests/support/test_folder.h"

namespace rakelight {
namespace {

struct Words {
    std::string lumen = "500", grout = "sand", bed = "white", joint = "1.5", glass = "deep-teal", lean = "";
};

Layout layout_of(const test::Folder& folder, const Words& w) {
    const auto path = folder / "trial.yaml";
    std::ofstream(path) << fmt::format(
        "panel: {{name: trial, size: [120, 80]}}\n"
        "fields:\n"
        "  - {{name: sun, outline: [[0, 0], [40, 0], [40, 80], [0, 80]], piece: 12, joint: {}, mix: {{{}: 50 "
        "%, slate: 50 %}},"
        " bed: {}, grout: {}{}}}\n"
        "  - {{name: sea, opus: regulatum, piece: 14, joint: 1.5, mix: {{aqua: 60 %, coral: 40 %}}, grout: "
        "charcoal}}\n"
        "stones: [{{material: slag, at: [80, 40], size: [20, 16, 12], proud: 6}}]\n"
        "lamps: [{{name: spot, at: [-300, 2000, 700], aim: [0, 1450, 0], lumen: {}, beam angle: 30}}]\n",
        w.joint, w.glass, w.bed, w.grout, w.lean, w.lumen);
    return read_layout(path);
}

void expect_as_built_afresh(KeptRooms& rooms, const Layout& layout) {
    const World fresh = build_world(layout, lay(layout));
    const World& kept = rooms.in("", 0).world;
    EXPECT_EQ(kept.positions_mm, fresh.positions_mm);
    EXPECT_EQ(kept.triangles, fresh.triangles);
    EXPECT_EQ(kept.materials, fresh.materials);
    EXPECT_EQ(kept.groups, fresh.groups);
    ASSERT_EQ(kept.objects.size(), fresh.objects.size());
    ASSERT_EQ(kept.emitters.size(), fresh.emitters.size());
    for (std::size_t i = 0; i < fresh.emitters.size(); ++i)
        EXPECT_EQ(kept.emitters[i].peak_cd_per_m2, fresh.emitters[i].peak_cd_per_m2);
    for (std::size_t i = 0; i < fresh.objects.size(); ++i) {
        EXPECT_EQ(kept.objects[i].material, fresh.objects[i].material) << i;
        EXPECT_EQ(kept.objects[i].piece, fresh.objects[i].piece) << i;
        EXPECT_EQ(kept.objects[i].seed, fresh.objects[i].seed) << i;
        for (const float z : {0.2f, 0.9f}) {
            const glm::vec3 out(std::sqrt(1 - z * z), 0, z);
            EXPECT_EQ(mean(directional_albedo(kept.surfaces[kept.objects[i].surface], out)),
                      mean(directional_albedo(fresh.surfaces[fresh.objects[i].surface], out)))
                << i;
        }
    }
}

TEST(KeptRooms, WhatHoldsIsAsBuiltAfresh) {
    const test::Folder folder;
    KeptRooms rooms;
    const auto take = [&](const Words& words, Holds wanted) {
        const Layout layout = layout_of(folder, words);
        EXPECT_EQ(rooms.take(layout), wanted);
        expect_as_built_afresh(rooms, layout);
    };
    Words words;
    take(words, Holds::nothing);
    take(words, Holds::all_but_lights);
    words.lumen = "900";
    take(words, Holds::all_but_lights);
    words.grout = "pale-grey";
    take(words, Holds::meshes);
    words.bed = "brown";
    words.lumen = "700";
    take(words, Holds::meshes);
    words.joint = "2";
    take(words, Holds::some_fields);
    EXPECT_EQ(rooms.fields_kept(), 1);
    words.glass = "kelp-amber";  // other stock: nothing is taken for granted
    take(words, Holds::nothing);
    words.lean = ", lean towards: {lamp: spot}";
    rooms.take(layout_of(folder, words));
    words.lumen = "100";  // faces lean towards a lamp: it is geometry
    const Layout layout = layout_of(folder, words);
    EXPECT_NE(rooms.take(layout), Holds::all_but_lights);
    expect_as_built_afresh(rooms, layout);
}

TEST(KeptRooms, AMistakeLeavesAllAsItWas) {
    const test::Folder folder;
    KeptRooms rooms;
    const Layout good = layout_of(folder, {});
    rooms.take(good);
    Layout bad = good;
    bad.fields[1].piece_width_mm = bad.fields[1].piece_length_mm = 5000;
    auto tree = std::make_shared<LayoutTree>(*bad.sources.tree);
    tree->root.members.front().value.members.front().value.text = "another";
    bad.sources.tree = tree;
    EXPECT_THROW(rooms.take(bad), LayoutError);
    expect_as_built_afresh(rooms, good);
    EXPECT_EQ(rooms.take(good), Holds::all_but_lights);
}

TEST(KeptRooms, CoarseAndFullStandSideBySide) {
    const test::Folder folder;
    KeptRooms rooms;
    rooms.take(layout_of(folder, {}));
    const std::size_t coarse = rooms.in("", 5).world.triangles.size();
    const World* full = &rooms.in("", 0).world;
    EXPECT_LT(coarse, full->triangles.size() / 2);
    Words words;
    words.lumen = "900";
    rooms.take(layout_of(folder, words));
    EXPECT_EQ(rooms.in("", 5).world.triangles.size(), coarse);
    EXPECT_EQ(&rooms.in("", 0).world, full);
}

}  // namespace
}  // namespace rakelight
