// Metal leaf inside the light path: what eights of paths bring home is what the surface alone says.
#include <gtest/gtest.h>

#include <cmath>

#include "materials/optics/metal.h"
#include "tests/support/small_world.h"

using namespace rakelight;

namespace {

Material gilded(Leaf leaf, float roughness, bool glass) {
    Material m = glass ? faced(1.52f, 0.02f, 0.2f) : matte(0.2f);
    m.opaque = !glass;
    m.leaf = leaf;
    m.leaf_roughness = roughness;
    return m;
}

glm::vec3 down(double degrees) {
    const double t = degrees * 0.017453292519943295;
    return {static_cast<float>(-std::sin(t)), 0, static_cast<float>(-std::cos(t))};
}

double furnace_cd_per_m2(const Material& material, double degrees, const TristimulusWeights& weights) {
    World world = empty_world();
    add(world, floor_square(400), glm::mat4(1), object_of(world, material));
    world.environment = UniformEnvironment{1, weights, 0};
    finish(world);
    return seen_cd_per_m2(world, down(degrees) * -100.0f, down(degrees), 1 << 15);
}

}  // namespace

// A uniform surround of luminance 1 shows the directional albedo of the surface, weighed by the eye.
TEST(LeafInPaths, FurnaceShowsTheSurfacesAlbedo) {
    const TristimulusWeights weights = tristimulus_weights(*find_illuminant("E"));
    const float white = integrate(weights, SampledSpectrum(1))[1];
    InterfaceTables cache;
    for (const Leaf leaf : {Leaf::gold, Leaf::silver})
        for (const bool glass : {false, true})
            for (const float roughness : {0.05f, 0.3f})
                for (const double degrees : {0.0, 50.0}) {
                    const Material m = gilded(leaf, roughness, glass);
                    const SampledSpectrum albedo =
                        directional_albedo(make_surface(m, 6, SampledSpectrum(), 1, cache), -down(degrees).z);
                    const double expected = integrate(weights, albedo)[1] / white;
                    EXPECT_NEAR(furnace_cd_per_m2(m, degrees, weights), expected, 0.006)
                        << glass << ' ' << roughness << ' ' << degrees;
                }
}

// A lamp that fills much of what bare gold of little roughness mirrors has its luminance times the metal's
// reflectance (Johnson and Christy's indices, head-on), in gold's colour.
TEST(LeafInPaths, LampMirroredInGold) {
    World world = empty_world();
    add(world, floor_square(400), glm::mat4(1), object_of(world, gilded(Leaf::gold, 0.01f, false)));
    world.emitters.push_back(lamp_of(DiscShape{glm::vec2(300)}, {0, 0, 1000}, {0, 0, -1}, 1000));
    finish(world);
    const glm::dvec3 seen = seen_xyz(world, {0, 0, 500}, {0, 0, -1}, 1 << 13);
    const TristimulusWeights weights = tristimulus_weights(*find_illuminant("D65"));
    const auto expected = integrate(weights, metal_mirror(metal_index(Leaf::gold), 1, 1));
    for (int i = 0; i < 3; ++i)
        EXPECT_NEAR(seen[i], 1000 * expected[static_cast<std::size_t>(i)],
                    15 * expected[static_cast<std::size_t>(i)]);
    EXPECT_GT(seen.y, 1.5 * seen.z);
}
