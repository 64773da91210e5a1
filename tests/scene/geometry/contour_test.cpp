#include "scene/geometry/contour.h"

#include <gtest/gtest.h>

#include <cmath>

namespace rakelight {
namespace {

constexpr int kSide = 41;
constexpr double kStep_mm = 0.5;

glm::dvec2 place(int x, int y) {
    return kStep_mm * glm::dvec2(x, y);
}

// A contour of `value(p)`, a plane function, where `counts(p)` > 0.
template <class Value, class Counts>
std::vector<Contour> contours(Value&& value, Counts&& counts) {
    const auto node = [&](int x, int y) {
        return glm::vec2(static_cast<float>(value(place(x, y))), static_cast<float>(counts(place(x, y))));
    };
    const auto square = [&](int x, int y) -> std::optional<ContourSquare> {
        return ContourSquare{node(x, y), node(x + 1, y), node(x + 1, y + 1), node(x, y + 1)};
    };
    return zero_contours(kSide, kSide, square, place);
}

double everywhere(const glm::dvec2&) {
    return 1;
}

TEST(Contour, OfADistanceIsOneClosedCircle) {
    const glm::dvec2 middle(10.1, 9.7);
    constexpr double kRadius_mm = 6.3;
    const auto found =
        contours([&](const glm::dvec2& p) { return glm::distance(p, middle) - kRadius_mm; }, everywhere);
    ASSERT_EQ(found.size(), 1u);
    EXPECT_TRUE(found[0].closed);
    // Linear between nodes a step apart errs by no more than step^2 / (8 radius).
    for (const auto& p : found[0].line_mm)
        EXPECT_NEAR(glm::distance(p, middle), kRadius_mm, kStep_mm * kStep_mm / (8 * kRadius_mm) + 1e-5);
    for (std::size_t i = 1; i < found[0].line_mm.size(); ++i)
        EXPECT_LE(glm::distance(found[0].line_mm[i - 1], found[0].line_mm[i]), std::sqrt(2) * kStep_mm);
}

TEST(Contour, OfASlopeIsOneOpenLineAcross) {
    const auto found = contours([](const glm::dvec2& p) { return p.y - 0.3 * p.x - 4.05; }, everywhere);
    ASSERT_EQ(found.size(), 1u);
    EXPECT_FALSE(found[0].closed);
    for (const auto& p : found[0].line_mm) EXPECT_NEAR(p.y, 0.3 * p.x + 4.05, 1e-5);
    EXPECT_NEAR(std::abs(found[0].line_mm.front().x - found[0].line_mm.back().x), kStep_mm * (kSide - 1),
                1e-9);
}

TEST(Contour, ReachesOnlyAsFarAsItCounts) {
    const auto found = contours([](const glm::dvec2& p) { return p.y - 4.05; },
                                [](const glm::dvec2& p) { return 8.2 - p.x; });
    ASSERT_EQ(found.size(), 1u);
    double last = 0;
    for (const auto& p : found[0].line_mm) last = std::max(last, p.x);
    EXPECT_LE(last, 8.2);
    EXPECT_GT(last, 8.2 - kStep_mm);
}

}  // namespace
}  // namespace rakelight
