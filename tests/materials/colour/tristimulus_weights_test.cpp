#include "materials/colour/tristimulus_weights.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <limits>
#include <stdexcept>
#include <string>
#include <vector>

#include "materials/colour/ciede2000.h"
#include "materials/colour/illuminants.h"
#include "tests/support/published_whites.h"
#include "tests/support/table_reader.h"

namespace rakelight {
namespace {

Xyz through_bands(const TristimulusWeights& weights, const SampledSpectrum& reflectance) {
    const auto [x, y, z] = integrate(weights, reflectance);
    return {x, y, z};
}

// What a perfect diffuser sends back is the lamp's own white: all the way through the weights.
TEST(TristimulusWeights, PerfectDiffuserIsThePublishedWhite) {
    for (const auto& [name, white] : test::kPublishedWhites) {
        const Chromaticity c = chromaticity(
            through_bands(tristimulus_weights(find_illuminant(name).value()), SampledSpectrum(1)));
        EXPECT_NEAR(c.x, white.x, 1e-4) << name;
        EXPECT_NEAR(c.y, white.y, 1e-4) << name;
    }
}

// To half a unit in the last place of the largest weight.
TEST(TristimulusWeights, LuminanceOfThePerfectDiffuserIsOne) {
    for (const auto& name : illuminant_names()) {
        const TristimulusWeights weights = tristimulus_weights(find_illuminant(name).value());
        double total = 0;
        for (const float w : weights.y.v) total += w;
        EXPECT_NEAR(total, 1, 1e-8) << name;
        EXPECT_NEAR(integrate(weights, SampledSpectrum(1))[1], 1, 2e-7) << name;
    }
}

// Closed form: a quadratic between 400 and 700 nm, constant beyond, is interpolated without error, so sixteen
// bands give what the 5 nm sum gives, whatever the lamp. Single precision is all that is lost.
TEST(TristimulusWeights, QuadraticReflectanceIsExact) {
    Spectrum r;
    for (int i = 0; i < kSpectrumCount; ++i) {
        const double t = std::clamp((spectrum_wavelength_nm(i) - 400) / 300.0, 0.0, 1.0);
        r[i] = 0.9 - 2.1 * t + 1.9 * t * t;
    }
    for (const auto& name : illuminant_names()) {
        const Spectrum lamp = find_illuminant(name).value();
        const Xyz exact = spectrum_to_xyz(lamp, r);
        const Xyz ours = through_bands(tristimulus_weights(lamp), to_bands(r));
        EXPECT_NEAR(ours.x, exact.x, 1e-6) << name;
        EXPECT_NEAR(ours.y, exact.y, 1e-6) << name;
        EXPECT_NEAR(ours.z, exact.z, 1e-6) << name;
    }
}

// A line at a node falls to that band alone; a line midway between nodes, by the Lagrange cubic -1/16, 9/16,
// 9/16, -1/16 on four of them (closed form), and at the end of the range 3/8, 3/4, -1/8 on three.
TEST(TristimulusWeights, LinesFallOnTheNodesOfLagrange) {
    const auto line = [](int nm) {
        Spectrum s;
        s[(nm - 380) / 5] = 1;
        return tristimulus_weights(s).y;
    };
    const auto expect = [](const SampledSpectrum& y, int first_nm, std::initializer_list<double> shares) {
        SampledSpectrum expected;
        int band = (first_nm - 400) / 20;
        for (const double share : shares) expected[band++] = static_cast<float>(share);
        for (int b = 0; b < kBandCount; ++b) EXPECT_NEAR(y[b], expected[b], 1e-7) << b;
    };
    expect(line(560), 560, {1});
    expect(line(550), 520, {-1.0 / 16, 9.0 / 16, 9.0 / 16, -1.0 / 16});
    expect(line(410), 400, {3.0 / 8, 3.0 / 4, -1.0 / 8});
    expect(line(690), 660, {-1.0 / 8, 3.0 / 4, 3.0 / 8});
    expect(line(380), 400, {1});
    expect(line(780), 700, {1});
}

// The 24 chart colours of Ohta (1997), measured every 10 nm: sixteen bands against the sum at 5 nm, in
// CIEDE2000. Half a unit is under what can be seen side by side. F11 is three lines, and sees only what falls
// between the nodes there: one unit.
TEST(TristimulusWeights, ChartColoursKeepWithinAnUnseenDifference) {
    const auto chart = test::read_csv(RAKELIGHT_TEST_DATA "/chart24_reflectance.csv");
    ASSERT_EQ(chart.rows.size(), 24u);
    for (const auto& name : illuminant_names()) {
        const Spectrum lamp = find_illuminant(name).value();
        const TristimulusWeights weights = tristimulus_weights(lamp);
        const Xyz white = spectrum_to_xyz(lamp);
        double worst = 0;
        std::string worst_patch;
        for (std::size_t row = 0; row < chart.rows.size(); ++row) {
            const std::vector<double> measured = chart.curve(row, "R", 400, 700, 10);
            const Spectrum fine = spectrum_from_table(400, 10, measured, Between::monotone);
            const double difference = ciede2000(xyz_to_lab(spectrum_to_xyz(lamp, fine), white),
                                                xyz_to_lab(through_bands(weights, to_bands(fine)), white));
            if (difference > worst) {
                worst = difference;
                worst_patch = chart.rows[row][0];
            }
        }
        RecordProperty(name, std::to_string(worst));
        EXPECT_LT(worst, name == "F11" ? 1.0 : 0.5) << name << " " << worst_patch;
    }
}

TEST(TristimulusWeights, RefusesWhatIsNoLamp) {
    EXPECT_THROW(tristimulus_weights(Spectrum{}), std::invalid_argument);
    Spectrum s = find_illuminant("E").value();
    s[40] = -1;
    EXPECT_THROW(tristimulus_weights(s), std::invalid_argument);
    s[40] = std::numeric_limits<double>::quiet_NaN();
    EXPECT_THROW(tristimulus_weights(s), std::invalid_argument);
    s[40] = std::numeric_limits<double>::infinity();
    EXPECT_THROW(tristimulus_weights(s), std::invalid_argument);
}

// The strength of a lamp is no part of its colour.
TEST(TristimulusWeights, DoNotDependOnTheScaleOfTheLamp) {
    const Spectrum lamp = find_illuminant("F11").value();
    Spectrum stronger = lamp;
    for (double& power : stronger.v) power *= 1024;
    EXPECT_EQ(tristimulus_weights(stronger), tristimulus_weights(lamp));
}

}  // namespace
}  // namespace rakelight
