// Grain of light from a picture all round, held against that of the same lamps as lamps at as many samples.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "tests/support/small_world.h"
#include "tests/support/surround_samples.h"

using namespace rakelight;

namespace {

constexpr double kPi = std::numbers::pi;
constexpr float kFar_mm = 1e6f;

// A round lamp far away.
struct FarLamp {
    glm::vec3 to;
    double radius_rad;
    float cd_per_m2;
};

glm::vec3 towards(double altitude_deg, double aside_deg) {
    const double a = altitude_deg * kPi / 180, b = aside_deg * kPi / 180;
    return glm::vec3(glm::dvec3(std::cos(a) * std::sin(b), std::sin(a), std::cos(a) * std::cos(b)));
}

// Ceiling spots, a broad panel aside, a lamp nearly in the plane of the wall, and a small hard one.
std::vector<FarLamp> lamps() {
    return {{towards(50, -20), 0.03, 60'000},
            {towards(55, 25), 0.03, 60'000},
            {towards(5, -60), 0.25, 900},
            {towards(15, 86), 0.05, 20'000},
            {towards(30, 5), 0.01, 300'000}};
}

// A wall, z = 0, with a proud piece on it that throws a shadow and mirrors.
World wall() {
    World world = empty_world();
    add(world, floor_square(4000), glm::mat4(1), object_of(world, matte(0.6f)));
    add(world, box_mesh({-100, -100, 0}, {100, 100, 60}), glm::mat4(1),
        object_of(world, faced(1.5f, 0.15f, 0.3f)));
    return world;
}

World lit_by_lamps() {
    World world = wall();
    for (const FarLamp& lamp : lamps())
        world.emitters.push_back(lamp_of(SphereShape{kFar_mm * static_cast<float>(std::sin(lamp.radius_rad))},
                                         lamp.to * kFar_mm, -lamp.to, lamp.cd_per_m2));
    finish(world);
    return world;
}

World lit_by_picture() {
    World world = wall();
    put_round(world, surround_of(512, [](const glm::vec3& d) {
                  float sum = 0;
                  for (const FarLamp& lamp : lamps())
                      if (double(glm::dot(d, lamp.to)) > std::cos(lamp.radius_rad)) sum += lamp.cd_per_m2;
                  return glm::vec3(sum);
              }));
    finish(world);
    return world;
}

struct Seen {
    double mean = 0, deviation = 0;  ///< of the mean of kSamples paths
};

constexpr std::uint32_t kSamples = 16, kPixels = 1500;

Seen seen_along(const World& world, const glm::vec3& from_mm, const glm::vec3& direction) {
    const Bvh bvh(world);
    const LightSampler lights(world.emitters);
    const SceneView<Bvh> scene{world, bvh, lights};
    double sum = 0, squares = 0;
    for (std::uint32_t pixel = 0; pixel < kPixels; ++pixel) {
        std::vector<glm::dvec3> total(world.groups.size(), glm::dvec3(0));
        for (std::uint32_t i = 0; i < kSamples; ++i) {
            Path path{.from_mm = from_mm, .direction = direction, .sampler = Sampler(mix_word(pixel + 1), i)};
            trace_paths(scene, std::span(&path, 1), total);
        }
        const double y = total[0].y / kSamples;
        sum += y;
        squares += y * y;
    }
    const double mean = sum / kPixels;
    return {mean, std::sqrt(std::max(0.0, squares / kPixels - mean * mean))};
}

}  // namespace

// The bound is the project's own: 1.3 times the grain of lamps, on the wall in full light, in the penumbra of
// the piece, on its face and on its side.
TEST(SurroundNoise, IsThatOfLamps) {
    const World by_lamps = lit_by_lamps(), by_picture = lit_by_picture();
    double of_lamps = 0, of_picture = 0;
    for (const glm::vec3& at : {glm::vec3(500, 300, 0),
                                {-130, 0, 0},
                                {115, -20, 0},
                                {20, -110, 0},
                                {30, 40, 60},
                                {-50, 10, 60},
                                {100, 20, 30}}) {
        const glm::vec3 eye(60, -40, 1500), direction = glm::normalize(at - eye);
        const Seen a = seen_along(by_lamps, eye, direction), b = seen_along(by_picture, eye, direction);
        EXPECT_NEAR(b.mean, a.mean, 0.02 * a.mean) << at.x;
        of_lamps += a.deviation * a.deviation / (a.mean * a.mean);
        of_picture += b.deviation * b.deviation / (a.mean * a.mean);
    }
    const double ratio = std::sqrt(of_picture / of_lamps);
    RecordProperty("ratio", std::to_string(ratio));
    EXPECT_LT(ratio, 1.3);
    EXPECT_GT(ratio, 0.7);  // of our own: much less would be another quantity
}
