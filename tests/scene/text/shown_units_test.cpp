#include "scene/text/shown_units.h"

#include <gtest/gtest.h>

#include "scene/text/shown_amounts.h"
#include "scene/text/units.h"

namespace rakelight {
namespace {

TEST(ShownUnits, MetricAsItIsKept) {
    EXPECT_EQ(shown_length(600, Units::metric), "600 mm");
    EXPECT_EQ(shown_length(2.5, Units::metric), "2.5 mm");
    EXPECT_EQ(shown_size({600, 450, 12.5}, Units::metric), "600 x 450 x 12.5 mm");
    EXPECT_EQ(shown_rounded(38.4, Units::metric), "38 mm");
    EXPECT_EQ(shown_mass(12.34, Units::metric), "12.3 kg");
}

// NIST Special Publication 811 (2008), appendix B.8: 1 inch = 2.54 E+01 mm, 1 pound = 4.5359237 E-01 kg, both
// exact.
TEST(ShownUnits, InchesAndPounds) {
    EXPECT_EQ(kInch_mm, 25.4);
    EXPECT_EQ(kPound_kg, 0.45359237);
    EXPECT_EQ(shown_length(609.6, Units::inches), "24 in");
    EXPECT_EQ(shown_length(600, Units::inches), "23.62 in");  // 600 / 25.4 = 23.6220
    EXPECT_EQ(shown_length(2, Units::inches), "0.079 in");    // 2 / 25.4 = 0.0787
    EXPECT_EQ(shown_size({254, 127}, Units::inches), "10 x 5 in");
    EXPECT_EQ(shown_rounded(38.1, Units::inches), "1.5 in");
    EXPECT_EQ(shown_mass(65 * 0.45359237, Units::inches), "65.0 lb");
}

// 1 in^2 = 6.4516 cm^2, 1 oz = 28.349523125 g, both exact: NIST Special Publication 811 (2008), appendix B.8.
TEST(ShownAmounts, AreSquareInchesAndOunces) {
    EXPECT_EQ(shown_area(64516, Units::metric), "645");
    EXPECT_EQ(shown_area(64516, Units::inches), "100");
    EXPECT_EQ(shown_area(645.16 * 2.5, Units::inches, 1), "2.5");
    EXPECT_EQ(area_unit(Units::inches), "sq in");
    EXPECT_EQ(shown_small_mass(283.49523125, Units::metric), "283");
    EXPECT_EQ(shown_small_mass(283.49523125, Units::inches), "10.0");
    EXPECT_EQ(small_mass_unit(Units::inches), "oz");
}

// What is written in inches is shown as it was written, to a hundredth.
TEST(ShownUnits, WhatIsReadIsShown) {
    for (const char* text : {"24 in", "18.25 in", "0.125 in", "-3 in"})
        EXPECT_EQ(shown_length(read_measure(text, Quantity::length_mm).value, Units::inches), text);
    EXPECT_EQ(shown_mass(read_measure("65 lb", Quantity::mass_g).value / 1000, Units::inches), "65.0 lb");
}

}  // namespace
}  // namespace rakelight
