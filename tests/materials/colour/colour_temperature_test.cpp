#include "materials/colour/colour_temperature.h"

#include <gtest/gtest.h>

#include "materials/colour/illuminants.h"

namespace rakelight {
namespace {

// CIE 015:2018: A, D50, D65, the F and the LED illuminants, rounded there to 1 K (the F illuminants to 10).
// The tolerances allow for that and for the summation range.
TEST(ColourTemperature, OfCieIlluminants) {
    struct Row {
        const char* name;
        double cct, tolerance;
    };
    for (const Row& row :
         {Row{"A", 2856, 2}, Row{"D50", 5003, 3}, Row{"D65", 6504, 3}, Row{"F2", 4230, 8}, Row{"F7", 6500, 8},
          Row{"F11", 4000, 5}, Row{"LED-B1", 2733, 3}, Row{"LED-B2", 2998, 3}, Row{"LED-B3", 4103, 3},
          Row{"LED-B4", 5109, 3}, Row{"LED-B5", 6598, 3}, Row{"LED-BH1", 2851, 3}, Row{"LED-RGB1", 2840, 3},
          Row{"LED-V1", 2724, 3}, Row{"LED-V2", 4070, 3}}) {
        const Spectrum lamp = find_illuminant(row.name).value();
        EXPECT_NEAR(cct_k(spectrum_to_xyz(lamp)), row.cct, row.tolerance) << row.name;
    }
}

// A black body is its own temperature (closed form), at no distance.
TEST(ColourTemperature, OfBlackBodies) {
    for (const double t : {1000.0, 1500.0, 2700.0, 2856.0, 4000.0, 6504.0, 12000.0, 40000.0, 100000.0}) {
        const auto found = correlated_temperature(spectrum_to_xyz(planckian(t)));
        EXPECT_NEAR(found.cct_k, t, 1e-4 * t) << t;
        EXPECT_NEAR(found.duv, 0, 1e-7) << t;
    }
}

// Daylight lies above the locus: 0.0032 at D65 (published with ANSI C78.377, from memory).
TEST(ColourTemperature, DistanceHasASign) {
    const Xyz day = spectrum_to_xyz(find_illuminant("D65").value());
    EXPECT_NEAR(correlated_temperature(day).duv, 0.0032, 1e-4);
    const Xyz pinkish{day.x, 0.97 * day.y, day.z};
    EXPECT_LT(correlated_temperature(pinkish).duv, 0);
}

}  // namespace
}  // namespace rakelight
