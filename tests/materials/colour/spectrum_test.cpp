#include "materials/colour/spectrum.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <limits>
#include <stdexcept>
#include <vector>

namespace rakelight {
namespace {

using Points = std::vector<SpectralPoint>;

// Closed form: both curves reproduce a straight line.
TEST(Spectrum, StraightLineIsExact) {
    const Points line = {{380, 0.1}, {431, 0.1 + 0.051}, {640, 0.1 + 0.26}, {780, 0.5}};
    for (const Between between : {Between::linear, Between::monotone}) {
        const Spectrum s = spectrum_from_points(line, between);
        for (int i = 0; i < kSpectrumCount; ++i)
            EXPECT_NEAR(s[i], 0.1 + 1e-3 * (spectrum_wavelength_nm(i) - 380), 1e-12);
    }
}

// Fritsch and Butland 1984, eq. 5 by hand: secants 0.01 and 0.03 per nm over equal steps give the harmonic
// mean 0.015 at 420; halfway from 420 to 440 the Hermite cubic is the mean of the ends plus step/8 times the
// slopes' difference.
TEST(Spectrum, MonotoneSlopeIsTheHarmonicMean) {
    const Points points = {{400, 0.0}, {420, 0.2}, {440, 0.8}, {460, 1.0}};
    const Spectrum s = spectrum_from_points(points, Between::monotone);
    EXPECT_NEAR(s[(430 - 380) / 5], 0.5 * (0.2 + 0.8) + 20.0 / 8 * (0.015 - 0.015), 1e-12);
    EXPECT_NEAR(s[(410 - 380) / 5], 0.5 * (0.0 + 0.2) + 20.0 / 8 * (0.01 - 0.015), 1e-12);
}

// Unequal steps of 20 and 40 nm weigh the secants 0.01 and 0.03 by alpha = (20 + 2 x 40) / (3 x 60) = 5/9.
TEST(Spectrum, MonotoneSlopeWeighsUnequalSteps) {
    const Points points = {{400, 0.0}, {420, 0.2}, {460, 1.4}};
    const double slope = 0.01 * 0.03 / (5.0 / 9 * 0.03 + 4.0 / 9 * 0.01);
    const Spectrum s = spectrum_from_points(points, Between::monotone);
    EXPECT_NEAR(s[(410 - 380) / 5], 0.1 + 20.0 / 8 * (0.01 - slope), 1e-12);
}

// The property Fritsch and Butland prove: within each pair of points the curve stays between them.
TEST(Spectrum, NeverPassesItsPoints) {
    const Points steps = {{400, 0.04}, {480, 0.05}, {500, 0.9}, {520, 0.9},
                          {560, 0.2},  {580, 0.85}, {700, 0.86}};
    for (const Between between : {Between::linear, Between::monotone}) {
        const Spectrum s = spectrum_from_points(steps, between);
        for (int i = 0; i < kSpectrumCount; ++i) {
            const double nm = spectrum_wavelength_nm(i);
            for (std::size_t k = 0; k + 1 < steps.size(); ++k) {
                if (nm < steps[k].wavelength_nm || nm > steps[k + 1].wavelength_nm) continue;
                EXPECT_GE(s[i], std::min(steps[k].value, steps[k + 1].value) - 1e-12) << nm;
                EXPECT_LE(s[i], std::max(steps[k].value, steps[k + 1].value) + 1e-12) << nm;
            }
        }
    }
}

TEST(Spectrum, OutsideItsPoints) {
    const Points points = {{500, 2.0}, {600, 3.0}};
    const Spectrum kept = spectrum_from_points(points);
    EXPECT_EQ(kept[0], 2);
    EXPECT_EQ(kept[kSpectrumCount - 1], 3);
    const Spectrum dark = spectrum_from_points(points, Between::linear, Outside::zero);
    EXPECT_EQ(dark[(495 - 380) / 5], 0);
    EXPECT_EQ(dark[(500 - 380) / 5], 2);
    EXPECT_EQ(dark[(600 - 380) / 5], 3);
    EXPECT_EQ(dark[(605 - 380) / 5], 0);
}

TEST(Spectrum, TableIsPointsAtAConstantStep) {
    const std::vector<double> values = {1, 4, 2};
    const Points points = {{410, 1}, {520, 4}, {630, 2}};
    EXPECT_EQ(spectrum_from_table(410, 110, values), spectrum_from_points(points));
}

TEST(Spectrum, BandsAreTheValuesAtTheirWavelengths) {
    Spectrum s;
    for (int i = 0; i < kSpectrumCount; ++i) s[i] = spectrum_wavelength_nm(i);
    const SampledSpectrum bands = to_bands(s);
    for (int b = 0; b < kBandCount; ++b) EXPECT_EQ(bands[b], static_cast<float>(band_wavelength_nm(b)));
}

TEST(Spectrum, AFewPointsMakeBands) {
    EXPECT_EQ(bands_from_points({{550, 0.25}}), SampledSpectrum(0.25f));
    const SampledSpectrum two = bands_from_points({{440, 0.0}, {640, 1.0}}, Between::linear);
    EXPECT_EQ(two[0], 0);
    EXPECT_FLOAT_EQ(two[(540 - 400) / 20], 0.5f);
    EXPECT_EQ(two[kBandCount - 1], 1);
}

TEST(Spectrum, RefusesWhatIsNoCurve) {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    const double inf = std::numeric_limits<double>::infinity();
    for (const Points& bad : {Points{}, Points{{500, 1}, {500, 2}}, Points{{500, 1}, {400, 2}},
                              Points{{500, nan}}, Points{{nan, 1}}, Points{{400, 1}, {inf, 1}}}) {
        EXPECT_THROW(spectrum_from_points(bad), std::invalid_argument);
        EXPECT_THROW(bands_from_points(bad), std::invalid_argument);
    }
    EXPECT_THROW(spectrum_from_table(400, 0, std::vector<double>{1, 2}), std::invalid_argument);
    EXPECT_THROW(spectrum_from_table(400, -5, std::vector<double>{1, 2}), std::invalid_argument);
}

}  // namespace
}  // namespace rakelight
