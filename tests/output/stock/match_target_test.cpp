#include "output/stock/match_target.h"

#include <gtest/gtest.h>

#include "materials/optics/fresnel.h"
#include "materials/stock/stock.h"
#include "output/system/errors.h"

namespace rakelight {
namespace {

TEST(MatchTarget, Lab) {
    EXPECT_EQ(parse_lab("45,10,-20"), (Lab{45, 10, -20}));
    EXPECT_EQ(parse_lab(" 45.5 , 0, 3"), (Lab{45.5, 0, 3}));
    for (const char* bad :
         {"", "45", "45,10", "45,10,20,30", "101,0,0", "-1,0,0", "45,a,0", "45,,0", "45,10,900"})
        EXPECT_THROW(parse_lab(bad), RequestError) << bad;
}

// IEC 61966-2-1 primaries in Lab under D65: red 53.24, 80.09, 67.20; white 100; from the standard's matrix.
TEST(MatchTarget, Srgb) {
    const Lab red = parse_srgb("#ff0000");
    EXPECT_NEAR(red.l, 53.24, 0.02);
    EXPECT_NEAR(red.a, 80.09, 0.05);
    EXPECT_NEAR(red.b, 67.20, 0.05);
    const Lab white = parse_srgb("FFFFFF");
    EXPECT_NEAR(white.l, 100, 1e-9);
    EXPECT_NEAR(white.a, 0, 1e-9);
    EXPECT_EQ(parse_srgb("4a6b7c"), parse_srgb("#4A6B7C"));
    for (const char* bad : {"", "#", "fff", "#12345", "#1234567", "12345g", "-12345", "0x1234"})
        EXPECT_THROW(parse_srgb(bad), RequestError) << bad;
}

// Clear glass with no absorption over a white bed: all that enters comes back, 1 - F(0) of face-on light;
// over black nothing does. F(0) of n = 1.5 is 0.04.
TEST(MatchTarget, GlassAsLaid) {
    Material glass;
    glass.kind = Kind::glass;
    glass.opaque = false;
    glass.index = 1.5f;
    const SampledSpectrum over_white = seen_as_laid(glass, 3, SampledSpectrum(1));
    const SampledSpectrum over_black = seen_as_laid(glass, 3, SampledSpectrum(0));
    for (int b = 0; b < kBandCount; ++b) {
        EXPECT_NEAR(over_white[b], 0.96, 2e-3);
        EXPECT_NEAR(over_black[b], 0, 1e-6);
    }
    // A bare stone shows its own curve.
    Material stone;
    stone.reflectance = SampledSpectrum(0.3f);
    EXPECT_NEAR(seen_as_laid(stone, 10, SampledSpectrum(0))[4], 0.3, 1e-6);
}

}  // namespace
}  // namespace rakelight
