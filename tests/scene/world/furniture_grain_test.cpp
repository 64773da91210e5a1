// Furniture is joined of boards, whose grain runs along each of them.
#include <gtest/gtest.h>

#include <algorithm>

#include "scene/laying/laying.h"
#include "scene/reading/layout_reader.h"
#include "scene/world/world.h"

namespace rakelight {
namespace {

TEST(FurnitureGrain, RunsUpLegsAndAlongSeats) {
    const Layout layout = read_layout_text(
        "panel: {size: [120, 80]}\n"
        "fields: [{name: sea, opus: tessellatum, piece: 20, joint: 2, mix: slate}]\n"
        "room: {floor: gallery-white, furniture: [{name: bench, form: bench, at: [0, 0, 1500], material: "
        "oak}]}\n"
        "lamps: [{name: spot, at: [0, 2400, 900], aim: [0, 1450, 0], lumen: 600}]\n",
        "bench.yaml");
    const World world = build_world(layout, lay(layout));
    const auto boards = [&](const glm::vec3& along) {
        return std::ranges::count_if(world.objects,
                                     [&](const Object& o) { return o.timber && o.along == along; });
    };
    // Two legs; a seat and the rail between them. Each is of another tree.
    EXPECT_EQ(boards({0, 1, 0}), 2);
    EXPECT_EQ(boards({1, 0, 0}), 2);
    std::vector<std::uint32_t> seeds;
    for (const Object& o : world.objects)
        if (o.timber) seeds.push_back(o.seed);
    std::ranges::sort(seeds);
    EXPECT_EQ(std::ranges::unique(seeds).begin(), seeds.end());
}

}  // namespace
}  // namespace rakelight
