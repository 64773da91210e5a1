// Faces inside the light path: furnace, and lamps mirrored in glass.
#include <gtest/gtest.h>

#include <numbers>

#include "tests/support/one_surface.h"
#include "tests/support/small_world.h"

using namespace rakelight;

namespace {

World furnace(const Material& material) {
    World world = empty_world();
    add(world, floor_square(400), glm::mat4(1), object_of(world, material));
    world.environment = UniformEnvironment{1, tristimulus_weights(*find_illuminant("E")), 0};
    finish(world);
    return world;
}

glm::vec3 toward_origin(double degrees) {
    const double t = degrees * std::numbers::pi / 180;
    return {static_cast<float>(-std::sin(t)), 0, static_cast<float>(-std::cos(t))};
}

}  // namespace

// Conservation of energy: a white body under any lossless face, in a surround of luminance 1, shows 1.
TEST(Face, WhiteFurnace) {
    double worst = 0;
    for (const float index : {1.0f, 1.2f, 1.333f, 1.5f, 1.7f})
        for (const float roughness : {0.02f, 0.1f, 0.3f, 0.6f, 1.0f})
            for (const double degrees : {0.0, 30.0, 60.0, 80.0}) {
                const World world = furnace(faced(index, roughness, 1));
                const glm::vec3 direction = toward_origin(degrees);
                const double seen = seen_cd_per_m2(world, direction * -100.0f, direction, 1 << 16);
                worst = std::max(worst, std::abs(seen - 1));
                EXPECT_NEAR(seen, 1, 0.002)
                    << "n " << index << ", roughness " << roughness << ", " << degrees;
            }
    for (const float stretch : {4.0f, 16.0f})  // brushed
        for (const double degrees : {0.0, 30.0, 60.0, 80.0}) {
            Material brushed = faced(1.5f, 0.3f, 1);
            brushed.stretch = stretch;
            const World world = furnace(brushed);
            for (const glm::vec3& direction :
                 {toward_origin(degrees), glm::vec3(0, toward_origin(degrees).x, toward_origin(degrees).z)}) {
                const double seen = seen_cd_per_m2(world, direction * -100.0f, direction, 1 << 16);
                worst = std::max(worst, std::abs(seen - 1));
                EXPECT_NEAR(seen, 1, 0.002) << "stretch " << stretch << ", " << degrees;
            }
        }
    RecordProperty("worst", std::to_string(worst));
    std::printf("furnace: worst departure %.5f\n", worst);
}

// Matte stuff of reflectance 0.5 in the same surround shows 0.5, whatever its slope statistics lose or gain.
TEST(Face, MatteFurnace) {
    for (const float degrees : {0.0f, 20.0f, 40.0f}) {
        Material m = matte(1);
        m.matte_deg = degrees;
        for (const double view : {0.0, 45.0, 75.0}) {
            const glm::vec3 direction = toward_origin(view);
            EXPECT_NEAR(seen_cd_per_m2(furnace(m), direction * -100.0f, direction, 1 << 17), 1, 0.002)
                << degrees << " " << view;
        }
    }
}

// The image of a lamp in flat black glass has the lamp's luminance times the Fresnel reflectance (exact
// unpolarised values for n = 1.52: 0.04258, 0.05305, 0.09248, 0.25672 at 0, 45, 60, 75 degrees).
TEST(Face, LampMirroredInGlass) {
    const struct {
        double degrees, reflectance;
    } cases[] = {{0, 0.04258}, {45, 0.05305}, {60, 0.09248}, {75, 0.25672}};
    for (const auto& c : cases) {
        World world = empty_world();
        add(world, floor_square(400), glm::mat4(1), object_of(world, faced(1.52f, 0, 0)));
        const glm::vec3 in = toward_origin(c.degrees);
        const glm::vec3 lamp_at = glm::vec3(in.x, 0, -in.z) * 2000.0f;
        world.emitters.push_back(lamp_of(DiscShape{glm::vec2(100)}, lamp_at, -glm::normalize(lamp_at), 1e5f));
        finish(world);
        // The eye must not hide the lamp at normal incidence: it is a point, so it does not.
        const double seen = seen_cd_per_m2(world, in * -500.0f, in, 1 << 12);
        EXPECT_NEAR(seen, 1e5 * c.reflectance, 1e5 * c.reflectance * 0.01) << c.degrees;
    }
}

// Brushed along x, a small lamp's image is drawn out across the grain: the mirrored luminance seen to either
// side is that of the lobe itself, evaluated where the half vector lies, and greater across than along.
TEST(Face, BrushingDrawsTheMirroredLampOutAcrossTheGrain) {
    Material brushed = faced(1.5f, 0.15f, 0);
    brushed.stretch = 6;
    const double lamp_m2 = std::numbers::pi * 0.02 * 0.02;
    InterfaceTables cache;
    const Surface surface = make_surface(brushed, 5, SampledSpectrum(), 1, cache);
    for (const float lean : {0.1f, 0.3f}) {
        double seen[2];
        for (const int way : {0, 1}) {  // along x, which is how `object_of` lays the grain; then across
            World world = empty_world();
            add(world, floor_square(400), glm::mat4(1), object_of(world, brushed));
            world.emitters.push_back(lamp_of(DiscShape{glm::vec2(20)}, {0, 0, 2000}, {0, 0, -1}, 1e6f));
            finish(world);
            glm::vec3 out(0, 0, 1);
            out[way] = lean;
            out = glm::normalize(out);
            seen[way] = seen_cd_per_m2(world, out * 500.0f, -out, 1 << 12);
            const double lobe = evaluate(SurfaceLanes(surface, out), {0, 0, 1}).interface;
            EXPECT_NEAR(seen[way], 1e6 * lamp_m2 / 4 * lobe, 0.01 * seen[way]) << lean << ' ' << way;
        }
        EXPECT_GT(seen[1], 2 * seen[0]) << lean;
    }
}

// A white diffuser has the lamp's own chromaticity (CIE 15: A 0.44758, 0.40745).
TEST(Face, DiffuserTakesTheLampsColour) {
    World world = empty_world();
    add(world, floor_square(400), glm::mat4(1), object_of(world, matte(1)));
    Emitter lamp = lamp_of(DiscShape{glm::vec2(100)}, {0, 0, 1000}, {0, 0, -1}, 1000);
    lamp.weights = tristimulus_weights(*find_illuminant("A"));
    world.emitters.push_back(lamp);
    finish(world);
    const glm::dvec3 xyz = seen_xyz(world, {0, 0, 100}, {0, 0, -1}, 64);
    const double total = xyz.x + xyz.y + xyz.z;
    EXPECT_NEAR(xyz.x / total, 0.44758, 0.001);
    EXPECT_NEAR(xyz.y / total, 0.40745, 0.001);
}
