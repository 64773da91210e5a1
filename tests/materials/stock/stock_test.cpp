#include "materials/stock/stock.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "materials/colour/colorimetry.h"
#include "materials/colour/illuminants.h"
#include "materials/colour/short_curve.h"
#include "materials/colour/tristimulus_weights.h"
#include "materials/optics/surface.h"

namespace rakelight {
namespace {

// Of its body over a bed of mid-grey, near the normal, what the face mirrors left out.
Lab colour(const char* name) {
    InterfaceTables cache;
    const Material& m = *find_stock(name);
    const Surface s = make_surface(m, m.thickness_mm, SampledSpectrum(0.5f), 1, cache);
    const TristimulusWeights light = tristimulus_weights(*find_illuminant("D65"));
    const auto seen =
        integrate(light, directional_albedo(s, 0.9f) - SampledSpectrum(1 - s.transmittance(0.9f)));
    const auto white = integrate(light, SampledSpectrum(1.0f));
    return xyz_to_lab({seen[0], seen[1], seen[2]}, {white[0], white[1], white[2]});
}

TEST(Stock, EveryMaterialIsWhole) {
    const std::vector<std::string> names = stock_names();
    EXPECT_GE(names.size(), 22u);
    EXPECT_EQ(std::set(names.begin(), names.end()).size(), names.size());
    InterfaceTables cache;
    for (const std::string& name : names) {
        const Material* m = find_stock(name);
        ASSERT_NE(m, nullptr);
        EXPECT_EQ(m->name, name);
        EXPECT_EQ(m->provenance, Provenance::invented);
        EXPECT_TRUE(m->density_g_per_cm3 > 0.3f && m->density_g_per_cm3 < 4);
        EXPECT_TRUE(m->tone_spread >= 0 && m->tone_spread <= 0.25f);
        EXPECT_TRUE(m->grain.contrast >= 0 && m->grain.contrast <= 0.5f);
        EXPECT_NO_THROW(make_surface(*m, m->thickness_mm, SampledSpectrum(0.4f), 1, cache)) << name;
    }
    EXPECT_EQ(find_stock("no such thing"), nullptr);
    EXPECT_EQ(find_stock(""), nullptr);
}

// Colours seen by the CIE 1931 observer in daylight, in CIELAB: a name that says a colour holds it. Limits by
// the axes themselves: a* parts red from green, b* yellow from blue, and a grey of chroma under 12 is a grey.
TEST(Stock, NamesThatSayAColourHoldIt) {
    EXPECT_GT(colour("ruby").a, 0);
    EXPECT_GT(std::abs(colour("ruby").a), std::abs(colour("ruby").b));
    EXPECT_LT(colour("bottle-green").a, 0);
    EXPECT_LT(colour("green-slate").a, colour("slate").a);
    EXPECT_LT(colour("deep-teal").a, 0);
    EXPECT_LT(colour("aqua").a, 0);
    EXPECT_GT(colour("warm-grey").b, 0);
    EXPECT_LT(std::hypot(colour("warm-grey").a, colour("warm-grey").b), 12);
    for (const char* white : {"gallery-white", "foam-white"})
        for (const char* dark : {"abyss", "jet", "basalt"})
            EXPECT_GT(colour(white).l, colour(dark).l + 40) << white << ' ' << dark;
}

TEST(ShortCurve, RunsThroughItsPoints) {
    const SampledSpectrum b = bands_from_short({0, 5, 10, 15, 20, 25, 30});  // 0.1 per nm
    for (int i = 0; i < kBandCount; ++i) EXPECT_FLOAT_EQ(b[i], 2.f * static_cast<float>(i));
    EXPECT_EQ(bands_from_short({1, 1, 1, 1, 1, 1, 7})[15], 7);
}

}  // namespace
}  // namespace rakelight
