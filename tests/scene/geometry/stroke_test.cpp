#include "scene/geometry/stroke.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <numbers>

#include "scene/geometry/polygon.h"

namespace rakelight {
namespace {

using glm::dvec2;

Stroke ring(double radius_mm, int points) {
    Stroke stroke{.points_mm = {}, .smooth = true, .closed = true, .place = {}};
    for (int i = 0; i < points; ++i) {
        const double a = 2 * std::numbers::pi * i / points;
        stroke.points_mm.push_back(radius_mm * dvec2(std::cos(a), std::sin(a)));
    }
    return stroke;
}

double distance_to_chain(dvec2 p, const std::vector<dvec2>& chain) {
    double best = 1e300;
    for (size_t i = 0; i + 1 < chain.size(); ++i) {
        const dvec2 d = chain[i + 1] - chain[i];
        const double t = std::clamp(glm::dot(p - chain[i], d) / glm::dot(d, d), 0.0, 1.0);
        best = std::min(best, glm::distance(p, chain[i] + t * d));
    }
    return best;
}

/// The same curve by the pyramid of Barry and Goldman (SIGGRAPH 1988), which the flattening does not use.
dvec2 pyramid(const dvec2 (&p)[4], double u) {
    double t[4] = {0, 0, 0, 0};
    for (int i = 1; i < 4; ++i) t[i] = t[i - 1] + std::sqrt(glm::distance(p[i], p[i - 1]));
    const double x = t[1] + u * (t[2] - t[1]);
    const auto mix = [&](dvec2 a, dvec2 b, int from, int to) {
        return ((t[to] - x) * a + (x - t[from]) * b) / (t[to] - t[from]);
    };
    const dvec2 a1 = mix(p[0], p[1], 0, 1), a2 = mix(p[1], p[2], 1, 2), a3 = mix(p[2], p[3], 2, 3);
    const dvec2 b1 = mix(a1, a2, 0, 2), b2 = mix(a2, a3, 1, 3);
    return mix(b1, b2, 1, 2);
}

TEST(Flatten, StraightStrokesKeepTheirPoints) {
    const Stroke stroke{.points_mm = {{0, 0}, {10, 0}, {10, 0}, {10, 10}, {0, 0}},
                        .smooth = false,
                        .closed = true,
                        .place = {}};
    EXPECT_EQ(flatten(stroke, 0.1), (std::vector<dvec2>{{0, 0}, {10, 0}, {10, 10}}));
}

TEST(Flatten, FollowsThePyramidWithinTheTolerance) {
    const dvec2 p[4] = {{0, 0}, {10, 40}, {90, 30}, {100, -20}};
    Stroke stroke;
    stroke.smooth = true;
    stroke.points_mm.assign(p, p + 4);
    for (const double tolerance_mm : {1.0, 0.05}) {
        const auto chain = flatten(stroke, tolerance_mm);
        for (int i = 0; i <= 50; ++i)
            EXPECT_LE(distance_to_chain(pyramid(p, i / 50.0), chain), tolerance_mm) << i;
        for (const dvec2 each : p) EXPECT_LE(distance_to_chain(each, chain), 1e-12);
    }
}

TEST(Flatten, RingOfPointsIsNearlyACircle) {
    const auto chain = flatten(ring(100, 16), 0.01);
    // Sixteen points: a cubic through them keeps well within 0.1 % of the radius. Area pi r^2 to 0.2 %.
    for (const dvec2 p : chain) EXPECT_NEAR(glm::length(p), 100, 0.1);
    EXPECT_NEAR(area_mm2(chain), std::numbers::pi * 1e4, 60);
    EXPECT_FALSE(self_crossing_mm(chain));
}

TEST(Flatten, DegenerateStrokesGiveWhatThereIs) {
    EXPECT_TRUE(flatten({}, 0.1).empty());
    EXPECT_EQ(flatten({{{1, 2}, {1, 2}, {1, 2}}, true, true, {}}, 0.1).size(), 1u);
    EXPECT_EQ(flatten({{{1, 2}, {5, 2}}, true, false, {}}, 0.1).size(), 2u);
}

TEST(SignedArea, CountsCounterClockwiseAsPositive) {
    const std::vector<dvec2> square{{0, 0}, {10, 0}, {10, 10}, {0, 10}};
    EXPECT_DOUBLE_EQ(area_mm2(square), 100);
    EXPECT_DOUBLE_EQ(area_mm2(std::vector<dvec2>(square.rbegin(), square.rend())), -100);
    EXPECT_DOUBLE_EQ(area_mm2(std::span<const dvec2>{}), 0);
}

TEST(SelfCrossing, IsFoundWhereItIs) {
    const auto bow = self_crossing_mm(std::vector<dvec2>{{0, 0}, {10, 10}, {10, 0}, {0, 10}});
    ASSERT_TRUE(bow);
    EXPECT_NEAR(bow->x, 5, 1e-12);
    EXPECT_NEAR(bow->y, 5, 1e-12);
    EXPECT_TRUE(self_crossing_mm(std::vector<dvec2>{{0, 0}, {10, 0}, {5, 0}}));  // folded flat
    EXPECT_TRUE(self_crossing_mm(std::vector<dvec2>{{0, 0}, {10, 0}, {10, 5}, {5, 0}, {0, 5}}));  // touches
    EXPECT_FALSE(self_crossing_mm(std::vector<dvec2>{{0, 0}, {10, 0}, {10, 5}, {5, 0.01}, {0, 5}}));
    EXPECT_FALSE(self_crossing_mm(std::vector<dvec2>{{0, 0}, {10, 0}, {0, 10}}));
}

TEST(SelfCrossing, AgreesWithEveryPairOnRandomPolygons) {
    std::uint64_t state = 1;
    const auto next = [&] {  // a plain multiplicative generator (L'Ecuyer 1999, modulus 2^64)
        state = state * 2862933555777941757u + 3037000493u;
        return static_cast<double>(state >> 33) / 2147483648.0 * 100;
    };
    const auto side = [](dvec2 a, dvec2 b, dvec2 p) {
        return (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x);
    };
    int crossing = 0;
    for (int round = 0; round < 300; ++round) {
        std::vector<dvec2> p(5);
        for (dvec2& each : p) each = {next(), next()};
        bool expected = false;
        for (size_t i = 0; i < 5; ++i)
            for (size_t j = i + 2; j < 5; ++j) {
                if (i == 0 && j == 4) continue;
                const dvec2 a = p[i], b = p[i + 1], c = p[j], d = p[(j + 1) % 5];
                expected |= side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
            }
        EXPECT_EQ(self_crossing_mm(p).has_value(), expected) << round;
        crossing += expected;
    }
    EXPECT_GT(crossing, 50);
    EXPECT_LT(crossing, 290);
}

TEST(SelfCrossing, LargestOutlineTakesUnderASecond) {
    std::vector<dvec2> ring;
    for (int i = 0; i < 20'000; ++i) {
        const double a = 2 * std::numbers::pi * i / 20'000, r = 500 + 200 * std::sin(40 * a);
        ring.emplace_back(r * std::cos(a), r * std::sin(a));
    }
    const auto start = std::chrono::steady_clock::now();
    EXPECT_FALSE(self_crossing_mm(ring));
    EXPECT_LT(std::chrono::steady_clock::now() - start, std::chrono::seconds(1));
}

}  // namespace
}  // namespace rakelight
