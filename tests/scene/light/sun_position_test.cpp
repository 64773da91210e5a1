// The sun's place against worked examples: J. Meeus, "Astronomical Algorithms", 2nd ed. (1998); I. Reda and
// A. Andreas, "Solar position algorithm for solar radiation applications", NREL/TP-560-34302 (2003).
#include "scene/light/sun_position.h"

#include <gtest/gtest.h>

using namespace rakelight;

// Meeus, example 7.a: 1957 October 4.81.
TEST(SunPosition, JulianDay) {
    EXPECT_NEAR(julian_day({1957, 10, 4}, 0.81 * 24), 2436116.31, 1e-6);
    EXPECT_NEAR(julian_day({2000, 1, 1}, 12), 2451545.0, 1e-9);
}

// Meeus, example 25.a: 1992 October 13, 0h. The example's dynamical time is 59 s ahead: 0.0007 degrees.
TEST(SunPosition, AmongTheStars) {
    const SunCoordinates sun = sun_coordinates(julian_day({1992, 10, 13}, 0));
    EXPECT_NEAR(sun.right_ascension_deg, 198.38083, 0.003);
    EXPECT_NEAR(sun.declination_deg, -7.78507, 0.003);
    EXPECT_NEAR(sun.distance_au, 0.99766, 2e-5);
}

// Meeus, example 28.b: +13 m 42.6 s on the same day.
TEST(SunPosition, EquationOfTime) {
    EXPECT_NEAR(equation_of_time_min(julian_day({1992, 10, 13}, 0)), 13 + 42.6 / 60, 0.03);
}

// Reda and Andreas, appendix A.5: Golden, 17 October 2003, 12:30:30 at UT - 7 h. Zenith angle 50.11162,
// azimuth 194.34024 degrees. Their air is that of 1830 m: 0.01 degrees of tolerance.
TEST(SunPosition, InTheSkyOfAPlace) {
    const SunInSky sun = sun_in_sky({2003, 10, 17}, 12 + 30.5 / 60 + 7, 39.742476, -105.1786);
    EXPECT_NEAR(90 - sun.altitude_deg, 50.11162, 0.02);
    EXPECT_NEAR(sun.azimuth_deg, 194.34024, 0.02);
}

// At sundial noon the altitude is 90 - latitude + declination; 23.44 degrees at the June solstice, and
// refraction lifts a sun at 61 degrees by 0.009.
TEST(SunPosition, NoonAtTheSolstices) {
    const SunInSky june = sun_by_sundial({2026, 6, 21}, 12, 52);
    EXPECT_NEAR(june.altitude_deg, 90 - 52 + 23.44, 0.02);
    EXPECT_NEAR(june.azimuth_deg, 180, 1e-6);
    const SunInSky south = sun_by_sundial({2026, 12, 21}, 12, -52);
    EXPECT_NEAR(south.altitude_deg, 90 - 52 + 23.44, 0.02);
    EXPECT_NEAR(south.azimuth_deg, 0, 1e-6);
}

// At the equinox it rises in the east at six by the sundial and sets in the west; on the horizon the air
// lifts it by about half a degree (Meeus, chapter 16: 28.5 minutes of arc).
TEST(SunPosition, EquinoxEastAndWest) {
    const SunInSky morning = sun_by_sundial({2026, 3, 20}, 6, 45);
    EXPECT_NEAR(morning.azimuth_deg, 90, 0.3);
    EXPECT_NEAR(morning.altitude_deg, 0.475, 0.2);
    EXPECT_NEAR(sun_by_sundial({2026, 3, 20}, 18, 45).azimuth_deg, 270, 0.3);
    EXPECT_LT(sun_by_sundial({2026, 3, 20}, 0, 45).altitude_deg, -44);
}

TEST(SunPosition, CalendarKnowsItsDays) {
    EXPECT_TRUE(exists({2024, 2, 29}));
    EXPECT_FALSE(exists({2026, 2, 29}));
    EXPECT_FALSE(exists({2026, 13, 1}));
    EXPECT_FALSE(exists({2026, 0, 1}));
    EXPECT_FALSE(exists({2026, 4, 31}));
}
