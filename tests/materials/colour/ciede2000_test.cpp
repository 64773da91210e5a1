#include "materials/colour/ciede2000.h"

#include <gtest/gtest.h>
#include <lcms2.h>

#include "tests/support/table_reader.h"

namespace rakelight {
namespace {

// Sharma, Wu and Dalal, Color Res. Appl. 30 (2005) 21, Table 1, printed to four decimals: rotation in the
// blue, hue wrapping, near neutrals, large differences.
TEST(Ciede2000, MeetsThePublishedPairs) {
    const auto table = test::read_csv(RAKELIGHT_TEST_DATA "/ciede2000_sharma2005.csv");
    ASSERT_EQ(table.rows.size(), 34u);
    for (std::size_t row = 0; row < table.rows.size(); ++row) {
        const Lab first{table.number(row, "L1"), table.number(row, "a1"), table.number(row, "b1")};
        const Lab second{table.number(row, "L2"), table.number(row, "a2"), table.number(row, "b2")};
        EXPECT_NEAR(ciede2000(first, second), table.number(row, "dE00"), 1e-4) << "pair " << row + 1;
        EXPECT_NEAR(ciede2000(first, second), ciede2000(second, first), 1e-12) << "pair " << row + 1;
        EXPECT_EQ(ciede2000(first, first), 0);
    }
}

// LittleCMS as outside judge, over a grid of colours that avoids hues exactly opposite, where the mean hue is
// a choice.
TEST(Ciede2000, AgreesWithLittleCms) {
    int pairs = 0;
    for (double l = 3; l < 100; l += 24)
        for (double a = -88; a < 100; a += 31)
            for (double b = -93; b < 100; b += 29)
                for (double step = 0.7; step < 60; step *= 3) {
                    const Lab first{l, a, b};
                    const Lab second{l + 0.3 * step, a - step, b + 0.61 * step};
                    const cmsCIELab judge_first{first.l, first.a, first.b};
                    const cmsCIELab judge_second{second.l, second.a, second.b};
                    EXPECT_NEAR(ciede2000(first, second),
                                cmsCIE2000DeltaE(&judge_first, &judge_second, 1, 1, 1), 1e-6)
                        << l << " " << a << " " << b << " " << step;
                    ++pairs;
                }
    EXPECT_GT(pairs, 500);
}

// Both neutral: only lightness is left, and S_L is 1 at a mean of 50 (eq. 18).
TEST(Ciede2000, NeutralsDifferByLightnessAlone) {
    EXPECT_NEAR(ciede2000({49, 0, 0}, {51, 0, 0}), 2, 1e-12);
    EXPECT_EQ(ciede2000({0, 0, 0}, {0, 0, 0}), 0);
}

}  // namespace
}  // namespace rakelight
