// The primary lights against their own definition: colours of the sRGB primaries (IEC 61966-2-1), D65 in sum,
// nowhere negative (Mallett and Yuksel 2019).
#include "materials/colour/primary_lights.h"

#include <gtest/gtest.h>

#include "materials/colour/colorimetry.h"
#include "materials/colour/illuminants.h"

using namespace rakelight;

TEST(PrimaryLights, HaveTheColoursOfThePrimaries) {
    const Chromaticity published[] = {{0.64, 0.33}, {0.30, 0.60}, {0.15, 0.06}};
    for (std::size_t c = 0; c < 3; ++c) {
        const Chromaticity seen = chromaticity(spectrum_to_xyz(primary_lights()[c]));
        EXPECT_NEAR(seen.x, published[c].x, 2e-5) << c;
        EXPECT_NEAR(seen.y, published[c].y, 2e-5) << c;
    }
}

TEST(PrimaryLights, TogetherAreD65) {
    const Spectrum white = *find_illuminant("D65"), sum = light_of_rgb({1, 1, 1});
    for (int i = 0; i < kSpectrumCount; ++i) {
        EXPECT_NEAR(sum[i] / sum[36], white[i] / white[36], 1e-5) << i;
        for (const Spectrum& light : primary_lights()) EXPECT_GE(light[i], 0) << i;
    }
    const PrimaryWeights weights = primary_weights();
    EXPECT_NEAR(weights.luminance[0] + weights.luminance[1] + weights.luminance[2], 1, 1e-6);
    EXPECT_NEAR(weights.luminance[1], 0.7152, 2e-4);  // of sRGB's matrix
}

// A light path's XYZ of a colour on a white is what the sRGB matrix says.
TEST(PrimaryLights, WeightsGiveTheColourBack) {
    const PrimaryWeights primaries = primary_weights();
    for (const std::array<float, 3> rgb : {std::array{1.0f, 1.0f, 1.0f}, {0.8f, 0.1f, 0.02f}, {0, 0, 3}}) {
        const auto [x, y, z] = integrate(weights_of_rgb(primaries, rgb), SampledSpectrum(1.0f));
        const Xyz wanted = linear_rgb_to_xyz({double(rgb[0]), double(rgb[1]), double(rgb[2])});
        EXPECT_NEAR(y, 1, 1e-5);
        EXPECT_NEAR(x, wanted.x / wanted.y, 2e-3 * wanted.x / wanted.y) << rgb[0];
        EXPECT_NEAR(z, wanted.z / wanted.y, 2e-3 * wanted.z / wanted.y + 1e-4) << rgb[0];
    }
}

// The weights of a picture's colour are those of its spectrum taken whole, on a coloured surface too.
TEST(PrimaryLights, WeightsAreThoseOfTheSpectrum) {
    const std::array<float, 3> rgb{0.9f, 0.4f, 0.1f};
    const TristimulusWeights whole = tristimulus_weights(light_of_rgb({0.9f, 0.4f, 0.1f}));
    SampledSpectrum reflectance;
    for (int b = 0; b < kBandCount; ++b) reflectance[b] = 0.05f + 0.05f * static_cast<float>(b);
    const auto a = integrate(weights_of_rgb(primary_weights(), rgb), reflectance);
    const auto b = integrate(whole, reflectance);
    for (std::size_t i = 0; i < 3; ++i) EXPECT_NEAR(a[i], b[i], 2e-6) << i;
}
