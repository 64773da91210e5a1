// What is worked out for eight at once, against the same one at a time: to the bit.
#include <gtest/gtest.h>

#include <glm/gtc/matrix_transform.hpp>
#include <random>

#include "renderer/light_sampler.h"
#include "renderer/sampler.h"
#include "renderer/shading.h"
#include "tests/support/one_surface.h"
#include "tests/support/small_world.h"

using namespace rakelight;

namespace {

struct Chance {
    std::mt19937 engine{5};
    float operator()(float low, float high) {
        return low + (high - low) * static_cast<float>(engine() >> 8) / 16777216.f;
    }
};

Ray random_ray(Chance& chance) {
    const glm::vec3 from(chance(-150, 150), chance(-150, 150), chance(5, 80));
    const glm::vec3 to(chance(-300, 300), chance(-300, 300), chance(-200, 60));
    return {from, kFar_mm, glm::normalize(to - from)};
}

}  // namespace

TEST(EightAtOnce, BitsAreReversed) {
    std::mt19937 engine(3);
    for (int i = 0; i < 1000; ++i) {
        Words x{};
        for (std::size_t k = 0; k < kLanes; ++k) x[k] = static_cast<std::uint32_t>(engine());
        const Words turned = reverse_bits(x);
        for (std::size_t k = 0; k < kLanes; ++k) {
            const std::uint32_t one = x[k];
            ASSERT_EQ(turned[k], reverse_bits(one));
        }
    }
}

// A narrow spot, a wide one and a panel without a beam, from before, beside and behind.
TEST(EightAtOnce, BeamsOfFlatLamps) {
    std::array<Emitter, 3> lamps;
    for (std::size_t i = 0; i < lamps.size(); ++i) {
        lamps[i].shape = DiscShape{};
        lamps[i].peak_cd_per_m2 = 100 + 50 * static_cast<float>(i);
    }
    lamps[0].beam = std::make_shared<const BeamTable>(make_beam(12, 0));
    lamps[1].beam = std::make_shared<const BeamTable>(make_beam(60, 90));
    Chance chance;
    for (int i = 0; i < 2000; ++i) {
        LaneArray<const Emitter*> of;
        Floats cosine{};
        for (std::size_t k = 0; k < kLanes; ++k) {
            of[k] = &lamps[i % 4 == 3 ? 2 : chance.engine() % lamps.size()];
            cosine[k] = k == 0 ? 1 : chance(-0.2f, 1);
        }
        const Floats seen = plain_luminances(of, cosine);
        for (std::size_t k = 0; k < kLanes; ++k) ASSERT_EQ(seen[k], plain_luminance(*of[k], cosine[k]));
    }
}

TEST(EightAtOnce, GrainOfAnyMixOfLanes) {
    std::array<Object, 3> objects;
    objects[0].grain = {.contrast = 0.3f, .size_mm = 1.5f};
    objects[1].grain = {.contrast = 0.2f, .size_mm = 3, .band_ratio = 6};
    objects[1].seed = 77;
    objects[1].noise_shift_mm = {3, -8, 5};
    objects[2].grain = {.contrast = 0.4f, .size_mm = 4};
    objects[2].timber = true;
    Object even;
    Chance chance;
    for (int i = 0; i < 2000; ++i) {
        LaneArray<const Object*> of;
        Vec3s at{};
        Floats fine{};
        for (std::size_t k = 0; k < kLanes; ++k) {
            const std::uint32_t which = chance.engine() % (4 + i % 8);
            of[k] = which < objects.size() ? &objects[which] : &even;
            fine[k] = chance(0, 1) < 0.7f ? 1 : 0;
            at.x[k] = chance(-90, 90), at.y[k] = chance(-90, 90), at.z[k] = chance(-9, 9);
        }
        const Floats scale = grain_scales(of, at, fine);
        for (std::size_t k = 0; k < kLanes; ++k)
            ASSERT_EQ(scale[k], fine[k] > 0 ? grain_scale(*of[k], {at.x[k], at.y[k], at.z[k]}) : 1.0f);
    }
}

// Calls of any length, full packets or not, find what single rays find.
TEST(EightAtOnce, RaysMeetWhatEachMeets) {
    World world = empty_world();
    add(world, floor_square(200), glm::mat4(1), object_of(world, faced(1.5f, 0.1f, 1)));
    finish(world);
    const Bvh bvh(world);
    Chance chance;
    int met = 0;
    for (std::size_t count = 1; count <= 40; ++count) {
        std::vector<Ray> rays;
        for (std::size_t i = 0; i < count; ++i) rays.push_back(random_ray(chance));
        if (count % 3 == 0) rays[0].most_mm = 1;
        std::vector<Hit> hits(count, Hit{9, 9, 9, 9, glm::vec3(9)});
        const auto answers = std::make_unique<bool[]>(count);
        bvh.intersect(rays, hits, false);
        bvh.occluded(rays, std::span(answers.get(), count));
        for (std::size_t i = 0; i < count; ++i) {
            const Hit one = bvh.intersect(rays[i]);
            ASSERT_EQ(hits[i].triangle, one.triangle);
            ASSERT_EQ(hits[i].distance_mm, one.distance_mm);
            ASSERT_EQ(hits[i].u, one.u);
            ASSERT_EQ(hits[i].v, one.v);
            ASSERT_EQ(hits[i].geometric_normal, one.geometric_normal);
            ASSERT_EQ(answers[i], bvh.occluded(rays[i]));
            met += one.triangle != kNone;
        }
    }
    EXPECT_GT(met, 100);
    EXPECT_LT(met, 800);
}

// A neighbour at a silhouette, whose normal is bent back, leaves the other seven alone.
TEST(EightAtOnce, NormalsDoNotDependOnTheNeighbours) {
    Chance chance;
    int compared = 0;
    for (int i = 0; i < 200; ++i) {
        World world = empty_world();
        const glm::mat4 aslant =
            glm::rotate(glm::mat4(1), chance(-0.6f, 0.6f), {chance(-1, 1), chance(-1, 1), 0.3f});
        add(world, floor_square(400), aslant, object_of(world, faced(1.5f, 0.1f, 1)));
        finish(world);
        const Bvh bvh(world);
        const auto turned = [&](const glm::vec3& v) { return glm::vec3(aslant * glm::vec4(v, 0)); };
        const Ray steep{turned({chance(-20, 20), chance(-20, 20), 90}), kFar_mm, turned({0, 0, -1})};
        const Ray grazing{turned({-100, 0, 0.5f}), kFar_mm, turned(glm::normalize(glm::vec3(1, 0, -0.005f)))};
        const Hit below = bvh.intersect(steep), along = bvh.intersect(grazing);
        ASSERT_NE(below.triangle, kNone);
        ASSERT_NE(along.triangle, kNone);
        const auto normals = [&](bool neighbour) {
            LaneArray<const Hit*> hits;
            Vec3s from{}, direction{};
            for (std::size_t k = 0; k < kLanes; ++k) {
                const bool other = neighbour && k == 3;
                const Ray& ray = other ? grazing : steep;
                hits[k] = other ? &along : &below;
                from.x[k] = ray.from_mm.x, from.y[k] = ray.from_mm.y, from.z[k] = ray.from_mm.z;
                direction.x[k] = ray.direction.x, direction.y[k] = ray.direction.y,
                direction.z[k] = ray.direction.z;
            }
            return shading_at(world, hits, from, direction, broadcast(1)).normal;
        };
        const Vec3s alone = normals(false), beside = normals(true);
        EXPECT_NE(beside.x[3], alone.x[3]);
        for (const std::size_t k : {0u, 2u, 4u, 7u}) {
            ASSERT_EQ(beside.x[k], alone.x[k]);
            ASSERT_EQ(beside.y[k], alone.y[k]);
            ASSERT_EQ(beside.z[k], alone.z[k]);
            ++compared;
        }
    }
    EXPECT_EQ(compared, 800);
}
