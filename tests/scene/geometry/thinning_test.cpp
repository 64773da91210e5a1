#include "scene/geometry/thinning.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numbers>

#include "materials/maths/hash.h"

namespace rakelight {
namespace {

using glm::dvec2;

double distance_to_chain(dvec2 p, const std::vector<dvec2>& chain, bool closed) {
    double best = 1e300;
    for (std::size_t i = 0; i + (closed ? 0 : 1) < chain.size(); ++i) {
        const dvec2 a = chain[i], d = chain[(i + 1) % chain.size()] - a;
        const double t = std::clamp(glm::dot(p - a, d) / std::max(1e-300, glm::dot(d, d)), 0.0, 1.0);
        best = std::min(best, glm::distance(p, a + t * d));
    }
    return best;
}

// The promise of the header, on circles, noise and walks that turn back on themselves.
TEST(Thinning, WhatIsLeftOutLiesNearWhatRemains) {
    Rng rng(3);
    for (int round = 0; round < 60; ++round) {
        std::vector<dvec2> points{{0, 0}};
        const double wild = round % 3 == 0 ? 0.3 : round % 3 == 1 ? 3 : 6.3;
        double heading = 0;
        for (int i = 0; i < 400; ++i) {
            heading += rng.within(-wild, wild);
            points.push_back(points.back() + dvec2(std::cos(heading), std::sin(heading)));
        }
        for (const bool closed : {false, true})
            for (const double tolerance : {0.05, 0.5, 3.0}) {
                const auto kept = thinned(points, closed, tolerance);
                for (const dvec2 p : points)
                    ASSERT_LE(distance_to_chain(p, kept, closed), tolerance + 1e-9)
                        << round << " " << tolerance;
            }
    }
}

// A chord over the angle a of a circle of radius r is off by r (1 - cos a/2): no fewer points can do, and the
// cone needs at most about twice as many.
TEST(Thinning, ACircleKeepsAboutAsManyPointsAsItNeeds) {
    std::vector<dvec2> points;
    for (int i = 0; i < 100'000; ++i) {
        const double a = 2 * std::numbers::pi * i / 100'000;
        points.emplace_back(100 * std::cos(a), 100 * std::sin(a));
    }
    const double fewest = std::numbers::pi / std::acos(1 - 0.05 / 100);
    const auto kept = thinned(points, true, 0.05);
    EXPECT_GE(static_cast<double>(kept.size()), fewest - 1);
    EXPECT_LE(static_cast<double>(kept.size()), 2.2 * fewest);
}

TEST(Thinning, EndsAndCornersStay) {
    EXPECT_EQ(thinned(std::vector<dvec2>{{0, 0}, {1, 0}, {2, 0}, {2, 1}, {2, 2}}, false, 0.01),
              (std::vector<dvec2>{{0, 0}, {2, 0}, {2, 2}}));
    EXPECT_EQ(thinned(std::vector<dvec2>{{0, 0}, {5, 0}, {10, 0}, {4, 0}}, false, 0.01),
              (std::vector<dvec2>{{0, 0}, {10, 0}, {4, 0}}));
    EXPECT_TRUE(thinned({}, true, 1).empty());
}

}  // namespace
}  // namespace rakelight
