// However many lamps shine, light is theirs together: one large lamp, cut into tiles, gives what it gave
// whole.
#include <gtest/gtest.h>

#include <cmath>
#include <glm/gtc/matrix_transform.hpp>
#include <numbers>

#include "renderer/light_meter.h"
#include "tests/support/small_world.h"

using namespace rakelight;

namespace {

// A square of 2 m at 1 m above the floor, in so many tiles each way.
World under_ceiling(int tiles, const Material& floor) {
    World world = empty_world();
    add(world, floor_square(400), glm::mat4(1), object_of(world, floor));
    const float half = 1000.0f / static_cast<float>(tiles);
    for (int j = 0; j < tiles; ++j)
        for (int i = 0; i < tiles; ++i) {
            const glm::vec3 at(static_cast<float>(2 * i + 1) * half - 1000,
                               static_cast<float>(2 * j + 1) * half - 1000, 1000);
            world.emitters.push_back(lamp_of(RectangleShape{glm::vec2(half)}, at, {0, 0, -1}, 1000));
        }
    finish(world);
    return world;
}

// 8 x 8 is what was once the most, 9 x 9 the first beyond, 20 x 20 far beyond.
constexpr int kTiles[] = {1, 8, 9, 20};

}  // namespace

// Element under the centre of a 2 x 2 rectangle at distance 1: configuration factor 0.554126 (Howell, "A
// Catalog of Radiation Heat Transfer Configuration Factors", C-4; computed from the closed form). Paths find
// lamps by aiming at them and by running into them; both are in what is seen of the floor.
TEST(ManyLamps, TiledRectangleOverMatteFloor) {
    for (const int tiles : kTiles) {
        const World world = under_ceiling(tiles, matte(0.5f));
        const double expected = 0.5 * 1000 * 0.554126;
        EXPECT_NEAR(seen_cd_per_m2(world, {0, 0, 100}, {0, 0, -1}, 16384), expected, expected * 0.005)
            << tiles * tiles;
    }
}

TEST(ManyLamps, MeterReadsTiledRectangle) {
    for (const int tiles : kTiles) {
        const World world = under_ceiling(tiles, matte(0));
        const auto lux =
            illuminance_xyz(world, Bvh(world), world.emitters, {0, 0, 0.01f}, {0, 0, 1}, 1024).at(0).y;
        const double expected = std::numbers::pi * 1000 * 0.554126;
        EXPECT_NEAR(lux, expected, expected * 0.005) << tiles * tiles;
    }
}

// A mirror shows the lamp's own luminance, times Fresnel's ((n - 1) / (n + 1))^2 head-on, whichever tile the
// ray runs into; what a rough face shows, most of it found by running into lamps, does not hang on the cuts.
TEST(ManyLamps, TiledRectangleMirrored) {
    const double fresnel = 0.25 / 6.25;
    double whole = 0;
    for (const int tiles : kTiles) {
        const glm::vec3 aside = glm::normalize(glm::vec3(0.02f, 0.03f, -1));
        const World smooth = under_ceiling(tiles, faced(1.5f, 0, 0));
        EXPECT_NEAR(seen_cd_per_m2(smooth, aside * -100.0f, aside, 256), 1000 * fresnel,
                    0.01 * 1000 * fresnel)
            << tiles * tiles;
        const World rough = under_ceiling(tiles, faced(1.5f, 0.1f, 0));
        const double seen = seen_cd_per_m2(rough, aside * -100.0f, aside, 16384);
        if (tiles == 1) whole = seen;
        EXPECT_NEAR(seen, whole, 0.01 * whole) << tiles * tiles;
    }
}

// Two equal lamps, one of them hidden by a screen: where the eye looks both are asked, so that even a single
// path tells what the other gives. Illuminance by the inverse-square law, the lamp being 20 mm at 1.1 m.
TEST(ManyLamps, HalfInTheShadeIsKnownByEachPath) {
    World world = empty_world();
    add(world, floor_square(400), glm::mat4(1), object_of(world, matte(0.5f)));
    add(world, floor_square(100), glm::translate(glm::mat4(1), glm::vec3(250, 0, 500)),
        object_of(world, matte(0)));
    for (const float x : {-500.0f, 500.0f}) {
        const glm::vec3 at(x, 0, 1000);
        world.emitters.push_back(lamp_of(DiscShape{{10, 10}}, at, glm::normalize(-at), 1000));
    }
    finish(world);
    const double square_mm = 500.0 * 500 + 1000.0 * 1000, cosine = 1000 / std::sqrt(square_mm);
    const double lux = 1000 * std::numbers::pi * 10 * 10 * cosine / square_mm;
    for (const int paths : {1, 2, 3, 16})
        EXPECT_NEAR(seen_cd_per_m2(world, {0, 0, 100}, {0, 0, -1}, paths), 0.5 / std::numbers::pi * lux,
                    0.002 * lux)
            << paths;
}
