#include "output/glare/measures/guth.h"

#include <gtest/gtest.h>

#include <cmath>

namespace rakelight {
namespace {

// Levin's formula (1975) worked by hand at a few angles.
TEST(Guth, IsLevinsFit) {
    const struct {
        double upright, sight, index;
    } cases[] = {{0, 0, 1},         {0, 10, 1.43448},  {0, 20, 2.14599},  {0, 30, 3.34812},
                 {0, 50, 9.24423},  {90, 20, 1.23862}, {90, 30, 1.46814}, {90, 45, 2.04981},
                 {45, 20, 1.69046}, {45, 30, 2.38333}};
    for (const auto& c : cases) EXPECT_NEAR(position_index(c.upright, c.sight), c.index, 1e-5);
}

// CIE 117-1995, Table 4.1 at T/R = 0: H/R 0.1, 0.5, 1 (from memory); the fit departs from Guth's plot by up
// to about 12 %.
TEST(Guth, IsNearTheTableOfCie117) {
    const struct { double height_over_reach, index; } cases[] = {{0.1, 1.26}, {0.5, 2.86}, {1.0, 7.00}};
    for (const auto& c : cases)
        EXPECT_NEAR(position_index(0, std::atan(c.height_over_reach) * 180 / 3.14159265358979), c.index,
                    0.05 * c.index);
}

TEST(Guth, TakesDirections) {
    const glm::dvec3 sight(1, 0, 0), up(0, 0, 1);
    EXPECT_EQ(position_index(sight, sight, up), 1);
    // Eye looking along x, luminaire at (2, 2, 1.5): 51.340 degrees off, 53.130 from upright, 5.1750.
    EXPECT_NEAR(position_index(glm::normalize(glm::dvec3(2, 2, 1.5)), sight, up), 5.1750, 1e-4);
    EXPECT_NEAR(position_index(glm::normalize(glm::dvec3(2, -2, 1.5)), sight, up), 5.1750, 1e-4);
    EXPECT_NEAR(position_index(glm::normalize(glm::dvec3(2, 0, 1.5)), sight, up), 4.6567, 1e-4);
}

}  // namespace
}  // namespace rakelight
