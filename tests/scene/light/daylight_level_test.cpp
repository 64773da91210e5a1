// Levels of daylight against figures published elsewhere than the formulas come from.
#include "scene/light/daylight_level.h"

#include <gtest/gtest.h>

#include "materials/colour/colour_temperature.h"
#include "materials/colour/observer.h"

using namespace rakelight;

namespace {

double luminous(const Spectrum& s) {
    double total = 0;
    for (int i = 0; i < kSpectrumCount; ++i) total += s[i] * kObserver1931.y_bar[i];
    return total;
}

}  // namespace

// Kasten and Young 1989, table: about 38 at the horizon, 1/sin(altitude) to 0.3 % from 30 degrees up.
TEST(DaylightLevel, AirMass) {
    EXPECT_NEAR(air_mass(0), 38, 0.2);
    EXPECT_NEAR(air_mass(30), 2, 0.01);
    EXPECT_NEAR(air_mass(90), 1, 0.001);
    EXPECT_EQ(air_mass(-5), air_mass(0));
}

// Ends of civil, nautical and astronomical twilight: 3.4, 0.008 and 0.0006 lx (Explanatory Supplement to the
// Astronomical Almanac, 1992, table of natural illuminance; from memory).
TEST(DaylightLevel, Twilight) {
    EXPECT_NEAR(twilight_lux(-6), 3.4, 0.1);
    EXPECT_NEAR(twilight_lux(-12), 0.008, 0.0005);
    EXPECT_NEAR(twilight_lux(-18), 0.0006, 0.0001);
    EXPECT_EQ(twilight_lux(-40), twilight_lux(-18));
    // The pieces of the curve meet.
    for (const double joint : {-0.8, -5.0, -12.0})
        EXPECT_NEAR(twilight_lux(joint - 1e-6) / twilight_lux(joint + 1e-6), 1, 0.03) << joint;
}

// Two models that know nothing of each other: with the sun on the horizon they agree.
TEST(DaylightLevel, DayBeginsWhereTwilightEnds) {
    EXPECT_NEAR(sky_lux(SkyKind::clear, 0), twilight_lux(0), 0.1 * twilight_lux(0));
    for (const SkyKind sky : {SkyKind::overcast, SkyKind::clear}) {
        EXPECT_NEAR(sky_lux(sky, -1e-9), sky_lux(sky, 0), 1e-3);
        double before = 0;
        for (double altitude = -18; altitude <= 90; altitude += 0.5) {
            const double now = sky_lux(sky, altitude);
            EXPECT_GT(now, before) << altitude;
            before = now;
        }
    }
}

// The sun across its beam, overhead and in clear air: about 100 000 lx (a round figure of every handbook).
TEST(DaylightLevel, SunAcrossItsBeam) {
    EXPECT_NEAR(sun_lux(90), 100'000, 5'000);
    EXPECT_EQ(sun_lux(-0.1), 0);
    EXPECT_NEAR(sun_lux(40, 0.983) / sun_lux(40, 1.017), std::pow(1.017 / 0.983, 2), 1e-9);  // inverse square
}

// Direct sunlight was standardised as illuminant B, 4874 K (CIE 1931, mean noon sun); low suns are redder.
TEST(DaylightLevel, ColourOfTheSun) {
    const double high = cct_k(spectrum_to_xyz(sun_spectrum(60)));
    EXPECT_GT(high, 4800);
    EXPECT_LT(high, 5600);
    const double low = cct_k(spectrum_to_xyz(sun_spectrum(10)));
    EXPECT_LT(low, 4000);
    EXPECT_LT(cct_k(spectrum_to_xyz(sun_spectrum(4))), low);
}

// The spectrum fades as the illuminance does: Beer's law with one extinction, near enough over this range.
TEST(DaylightLevel, SpectrumFadesAsTheLuxDoes) {
    const double share = luminous(sun_spectrum(25)) / luminous(sun_spectrum(70));
    EXPECT_NEAR(share, sun_lux(25) / sun_lux(70), 0.02 * share);
}
