#include "scene/mix/assign.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <limits>

#include "materials/maths/hash.h"

namespace rakelight {
namespace {

// Every assignment there is, one after the other.
double least_by_force(std::span<const float> costs, std::vector<std::size_t> left, std::size_t piece = 0) {
    if (piece * left.size() == costs.size()) return 0;
    double least = std::numeric_limits<double>::infinity();
    for (std::size_t m = 0; m < left.size(); ++m) {
        if (!left[m]) continue;
        --left[m];
        least = std::min(least, costs[piece * left.size() + m] + least_by_force(costs, left, piece + 1));
        ++left[m];
    }
    return least;
}

TEST(MixAssign, NoneIsBetter) {
    for (std::uint64_t seed = 0; seed < 200; ++seed) {
        Rng rng(seed);
        const std::size_t pieces = 7, materials = 3;
        std::vector<float> costs;
        for (std::size_t i = 0; i < pieces * materials; ++i)
            costs.push_back(static_cast<float>(rng.within(0, 20)));
        const auto draw = [&] { return static_cast<std::size_t>(rng.within(0, 5)); };
        const std::vector<std::size_t> limits{draw(), draw(), seed % 2 ? kNoLimit : 4};
        const Assignment result = assign(costs, limits);
        std::size_t room = 0;
        for (const auto limit : limits) room += std::min(limit, pieces);
        ASSERT_EQ(result.enough, room >= pieces);
        if (!result.enough) continue;
        double sum = 0;
        std::vector<std::size_t> used(materials, 0);
        for (std::size_t i = 0; i < pieces; ++i) {
            sum += costs[i * materials + result.choice[i]];
            ++used[result.choice[i]];
        }
        for (std::size_t m = 0; m < materials; ++m) EXPECT_LE(used[m], limits[m]);
        EXPECT_NEAR(sum, least_by_force(costs, limits), 1e-4) << "seed " << seed;
        // Complementary slackness: at these prices nobody would change (Ahuja, Magnanti, Orlin, theorem 9.4).
        if (room == pieces) continue;
        for (std::size_t i = 0; i < pieces; ++i)
            for (std::size_t m = 0; m < materials; ++m)
                if (limits[m] > 0) {
                    EXPECT_LE(costs[i * materials + result.choice[i]] + result.price[result.choice[i]],
                              costs[i * materials + m] + result.price[m] + 1e-5);
                }
        for (std::size_t m = 0; m < materials; ++m)
            if (used[m] < limits[m]) {
                EXPECT_EQ(result.price[m], 0);
            }
    }
}

// The piece with the most to lose keeps the scarce material.
TEST(MixAssign, MostToLoseComesFirst) {
    const std::vector<float> costs{1, 2, 1, 9, 1, 4};
    const Assignment result = assign(costs, std::vector<std::size_t>{1, kNoLimit});
    EXPECT_EQ(result.choice, (std::vector<std::uint32_t>{1, 0, 1}));
    EXPECT_NEAR(result.price[0], 9 - 1, 1e-6);  // without it the second would have to change
}

}  // namespace
}  // namespace rakelight
