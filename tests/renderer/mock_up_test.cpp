// Stand-ins in a traced picture are as tall as perspective makes objects of their stated height.
#include "scene/world/mock_up.h"
#include "scene/model/layout.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "renderer/render.h"
#include "scene/reading/layout_reader.h"

using namespace rakelight;

namespace {

constexpr const char* kLayout = R"(
panel: {name: all, size: [300, 200]}
fields: [{name: all, piece: 60, mix: slate}]
room: {size: [5000, 8000, 3000]}
viewpoints: [{name: back, eye: [0, 1000, 7000], look at: [0, 1000, 0], view width: 4000}]
pictures: [{name: back, viewpoint: back, size: [400, 300], most samples: 1}]
)";

// First and last row in which the stuff is seen.
std::pair<int, int> rows_of(const Film& film, const std::string& stuff) {
    const auto name = std::find(film.materials.rbegin(), film.materials.rend(), stuff);
    const auto number = static_cast<std::int32_t>(film.materials.rend() - name);
    int first = film.height, last = -1;
    for (int y = 0; y < film.height; ++y)
        for (int x = 0; x < film.width; ++x)
            if (film.features.material[static_cast<std::size_t>(y * film.width + x)] == number) {
                first = std::min(first, y);
                last = std::max(last, y);
            }
    return {first, last};
}

Film picture_with(const StandInPlace& place) {
    const Layout layout = read_layout_text(kLayout, "all.yaml");
    const World world = build_mock_up(layout, lay(layout), {{place}, true});
    const Bvh bvh(world);
    return render(world, bvh, layout, layout.views.pictures[0]);
}

}  // namespace

TEST(MockUp, AFigureIsAsTallAsItSays) {
    // One pixel is 10 mm at the wall, 7000 mm off; at 2000 mm from the wall, 10 mm * 5000 / 7000.
    const double pixel_mm = 10 * 5000.0 / 7000;
    const Film film = picture_with({StandIn::figure, {600, 2000}, 0, 1700});
    const int first = rows_of(film, "hair").first, last = rows_of(film, "shoes").second;
    EXPECT_NEAR(150 - first, (1700 - 1000) / pixel_mm, 1.5);  // the eye's height lies in mid-picture
    // The heel behind is nearer to the eye than the middle: half a foot and half a step, .046 and .022 tall.
    EXPECT_NEAR(last + 1 - 150, 1000 / (10 * (5000 - 0.068 * 1700) / 7000), 1.5);
}

TEST(MockUp, ABenchIsAsTallAsItSays) {
    const StandInPlace bench{StandIn::bench, {0, 800}, 0, 450};
    const auto [first, last] = rows_of(picture_with(bench), "oak");
    // The seat's far edge shows highest, its near legs lowest: 190 mm and 170 mm from the middle.
    EXPECT_NEAR(first - 150, (1000 - 450) / (10 * (6200 + 190) / 7000.0), 1.5);
    EXPECT_NEAR(last + 1 - 150, 1000 / (10 * (6200 - 170) / 7000.0), 1.5);
}

TEST(MockUp, BodiesOfLampsStandOutOfTheirLight) {
    const Layout layout = read_layout_text(kLayout, "all.yaml");
    const World bare = build_world(layout, lay(layout));
    const World with = build_mock_up(layout, lay(layout), {{}, true});
    ASSERT_GT(with.triangles.size(), bare.triangles.size());
    const Bvh bvh(with);
    ASSERT_FALSE(layout.on.lamps.empty());
    for (const Emitter& lamp : with.emitters)
        for (const glm::vec3& to : {glm::vec3(0, 0, 20), glm::vec3(140, 90, 20), glm::vec3(-140, -90, 20)}) {
            const glm::vec3 way = lamp.centre_mm - to;
            EXPECT_FALSE(bvh.occluded(Ray{to, glm::length(way) * 0.9999f, glm::normalize(way)}));
        }
}
