// Rounding of floating-point expressions (IEEE 754-2019, section 5: each operation is rounded by itself).
#include <gtest/gtest.h>

#include <cmath>

#include "materials/maths/lanes.h"

namespace rakelight {
namespace {

// (1 + 2^-12)^2 = 1 + 2^-11 + 2^-24: the last term is lost when the product is rounded to 24 bits, a tie to
// even, and kept when product and sum are fused.
volatile float factor = 1 + 0x1p-12f;
volatile float sum = -(1 + 0x1p-11f);

TEST(Rounding, AProductAndASumAreRoundedEach) {
    const float a = factor;
    const float c = sum;
    EXPECT_EQ(a * a + c, 0.0f);
    EXPECT_EQ(std::fma(a, a, c), 0x1p-24f);
}

TEST(Rounding, SoTheyAreInEveryLane) {
    const Floats a = broadcast(factor);
    const Floats result = a * a + broadcast(sum);
    for (std::size_t k = 0; k < kLanes; ++k) EXPECT_EQ(result[k], 0.0f);
}

}  // namespace
}  // namespace rakelight
