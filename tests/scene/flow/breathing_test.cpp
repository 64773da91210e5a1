// Row widths against the closed form of rows that run out from one point.
#include "scene/flow/breathing.h"

#include <gtest/gtest.h>

#include <cmath>

namespace rakelight {
namespace {

glm::dvec2 twice_the_angle(const glm::dvec2& v) {
    return glm::dvec2(v.x * v.x - v.y * v.y, 2 * v.x * v.y) / glm::dot(v, v);
}

// Directions of rays from the origin, at every node.
std::vector<glm::dvec2> rays(const Lattice& lattice) {
    std::vector<glm::dvec2> doubled;
    for (int y = 0; y < lattice.rows; ++y)
        for (int x = 0; x < lattice.columns; ++x) doubled.push_back(twice_the_angle(lattice.at(x, y)));
    return doubled;
}

TEST(Breathing, ParallelRowsStayAsWideAsAsked) {
    const Lattice lattice = lattice_over({{0, 0}, {40, 30}}, 1);
    const std::vector<glm::dvec2> doubled(lattice.count(), twice_the_angle({2, 1}));
    for (const double u : breathing(doubled, lattice, {}, {})) EXPECT_NEAR(u, 0, 1e-9);
}

TEST(Breathing, RaysOpenAsTheirDistanceFromThePoint) {
    // The width of a row between two rays grows as its distance r from their point: log(closeness) + log(r)
    // is one number. From 60 to 75 mm that is within a fifth either way.
    const Lattice lattice = lattice_over({{60, -8}, {75, 8}}, 1);
    const auto u = breathing(rays(lattice), lattice, {}, {});
    const auto at = [&](double x) {
        const int column = static_cast<int>(std::lround(x - lattice.low_mm.x));
        return u[lattice.index(column, lattice.rows / 2)];
    };
    EXPECT_NEAR(at(60) - at(75), std::log(75. / 60.), 0.1 * std::log(75. / 60.));
    EXPECT_NEAR(at(63) - at(70), std::log(70. / 63.), 0.1 * std::log(70. / 63.));
}

TEST(Breathing, NoMoreThanAFifthBetweenRowsAnd15PercentAlongOne) {
    const Lattice lattice = lattice_over({{20, -30}, {200, 30}}, 1);
    double low = 0, high = 0;
    for (const double v : breathing(rays(lattice), lattice, {}, {})) {
        low = std::min(low, v);
        high = std::max(high, v);
    }
    EXPECT_NEAR(low, -std::log(1.2 * 1.15), 1e-9);  // tenfold asks for all there is
    EXPECT_NEAR(high, std::log(1.2 * 1.15), 1e-9);
}

TEST(Breathing, NothingIsHandedOnAcrossABreak) {
    // On the left rays, on the right parallel rows, and every link between two columns cut.
    const Lattice lattice = lattice_over({{60, -8}, {90, 8}}, 1);
    auto doubled = rays(lattice);
    std::vector<std::uint8_t> cut(lattice.count(), 0);
    const int column = lattice.columns / 2;
    for (int y = 0; y < lattice.rows; ++y)
        for (int x = column; x < lattice.columns; ++x) {
            if (x > column) doubled[lattice.index(x, y)] = {1, 0};
            if (x == column) cut[lattice.index(x, y)] = 1 | 4;
            if (x == column + 1) cut[lattice.index(x, y)] |= 8;
        }
    const auto u = breathing(doubled, lattice, {}, cut);
    for (int y = 0; y < lattice.rows; ++y)
        for (int x = column + 1; x < lattice.columns; ++x) EXPECT_NEAR(u[lattice.index(x, y)], 0, 1e-9);
}

}  // namespace
}  // namespace rakelight
