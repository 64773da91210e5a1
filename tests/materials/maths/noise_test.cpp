#include "materials/maths/noise.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>
#include <set>
#include <vector>

#include "materials/maths/noise_lanes.h"

namespace rakelight {
namespace {

struct Points {
    std::mt19937 engine{11};
    float uniform() { return static_cast<float>(engine() >> 8) / 16777216.f; }
    glm::vec3 next() { return 200.f * glm::vec3(uniform(), uniform(), uniform()) - 100.f; }
};

TEST(Noise, EightPointsHaveTheValueOfEach) {
    Points points;
    for (int i = 0; i < 5000; ++i) {
        Vec3s p{};
        Words seed{};
        std::array<glm::vec3, kLanes> each;
        for (std::size_t k = 0; k < kLanes; ++k) {
            each[k] = points.next();
            p.x[k] = each[k].x, p.y[k] = each[k].y, p.z[k] = each[k].z;
            seed[k] = static_cast<std::uint32_t>(points.engine());
        }
        const Floats values = noise_values(p, seed);
        for (std::size_t k = 0; k < kLanes; ++k) ASSERT_EQ(values[k], noise_value(each[k], seed[k]));
    }
}

TEST(Noise, IsBoundedAndHasItsDeviation) {
    Points points;
    double sum = 0, squares = 0;
    constexpr int kCount = 400000;
    for (int i = 0; i < kCount; ++i) {
        const float v = gradient_noise(points.next(), 3).value;
        ASSERT_LE(std::fabs(v), 1);
        sum += v;
        squares += double(v) * v;
    }
    EXPECT_NEAR(sum / kCount, 0, 0.003);
    EXPECT_NEAR(std::sqrt(squares / kCount), kNoiseDeviation, 0.003);
}

TEST(Noise, GradientIsTheDerivative) {
    Points points;
    for (int i = 0; i < 2000; ++i) {
        const glm::vec3 p = 0.05f * points.next();
        for (int axis = 0; axis < 3; ++axis) {
            glm::vec3 step(0);
            step[axis] = 1.f / 256;
            EXPECT_NEAR(gradient_noise(p, 5).gradient[axis],
                        (gradient_noise(p + step, 5).value - gradient_noise(p - step, 5).value) * 128, 4e-3);
            EXPECT_NEAR(layered_noise(p, 3, 5).gradient[axis],
                        (layered_noise(p + step, 3, 5).value - layered_noise(p - step, 3, 5).value) * 128,
                        3e-2);
        }
    }
}

TEST(Noise, SeedsDifferAndLatticePointsAreZero) {
    EXPECT_EQ(gradient_noise({3, -4, 5}, 9).value, 0);
    const glm::vec3 p(1.3f, -2.6f, 0.4f);
    EXPECT_NE(gradient_noise(p, 1).value, gradient_noise(p, 2).value);
    EXPECT_EQ(gradient_noise(p, 1).value, gradient_noise(p, 1).value);
    EXPECT_EQ(layered_noise(p, 0, 1).value, 0);
}

TEST(Noise, LayeredIsBounded) {
    Points points;
    for (int i = 0; i < 20000; ++i) ASSERT_LE(std::fabs(layered_noise(points.next(), 5, 2, 0.7f).value), 1);
}

TEST(Noise, CellsAreTheNearestPoints) {
    Points points;
    std::set<std::uint32_t> ids;
    for (int n = 0; n < 3000; ++n) {
        const glm::vec3 p = 0.1f * points.next();
        // Every point of the 7 x 7 x 7 cubes round the asked point.
        const glm::vec3 low = glm::floor(p);
        std::vector<float> distances;
        for (int i = -3; i <= 3; ++i)
            for (int j = -3; j <= 3; ++j)
                for (int k = -3; k <= 3; ++k) {
                    const glm::ivec3 cell = glm::ivec3(low) + glm::ivec3(i, j, k);
                    const std::uint32_t h = lattice_hash(cell.x, cell.y, cell.z, 4);
                    const glm::vec3 spot((h & 1023u) + 0.5f, ((h >> 10) & 1023u) + 0.5f,
                                         ((h >> 20) & 1023u) + 0.5f);
                    distances.push_back(glm::distance(glm::vec3(cell) + spot / 1024.f, p));
                }
        std::sort(distances.begin(), distances.end());
        const CellSample cell = cell_noise(p, 4);
        ASSERT_NEAR(cell.nearest, distances[0], 1e-5);
        ASSERT_NEAR(cell.second, distances[1], 1e-5);
        ASSERT_NEAR(glm::length(cell.to_nearest), cell.nearest, 1e-6);
        EXPECT_EQ(cell_noise(p + 0.999f * cell.to_nearest, 4).id, cell.id);
        ids.insert(cell.id);
    }
    EXPECT_GT(ids.size(), 2000u);
}

TEST(Noise, ValueAloneIsTheValue) {
    for (std::uint32_t i = 0; i < 4000; ++i) {
        const std::uint32_t h = lattice_hash(static_cast<std::int32_t>(i), 5, -3, 7);
        const glm::vec3 p(static_cast<float>(h & 0xfffu) * 0.013f - 20,
                          static_cast<float>(h >> 12 & 0x3ffu) * 0.017f - 9,
                          static_cast<float>(h >> 22) * 0.021f);
        EXPECT_NEAR(noise_value(p, i % 5), gradient_noise(p, i % 5).value, 2e-6);
    }
}

}  // namespace
}  // namespace rakelight
