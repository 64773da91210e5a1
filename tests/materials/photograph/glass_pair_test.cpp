// Glass laid over white and over black by the layers that render, and read back: the inversion inverts.
// Whether those layers are right is judged by random walks in layer_test.cpp.
#include "materials/photograph/glass_pair.h"

#include <gtest/gtest.h>

#include <stdexcept>

#include "materials/stock/face_on.h"
#include "materials/stock/stock.h"

namespace rakelight {
namespace {

TEST(GlassPair, BringsGlassBack) {
    InterfaceTables tables;
    for (const char* name : {"deep-teal", "kelp-amber", "clear", "opal", "sea-green"}) {
        Material glass = *find_stock(name);
        glass.roughness = 0;
        GlassPair pair;
        pair.white_card = SampledSpectrum(0.85f);
        pair.black_card = SampledSpectrum(0.04f);
        pair.over_white = face_on_reflectance(glass, pair.thickness_mm, pair.white_card, 1, tables);
        pair.over_black = face_on_reflectance(glass, pair.thickness_mm, pair.black_card, 1, tables);
        const GlassOfPair found = glass_of_pair(pair);
        EXPECT_NEAR(found.milkiness, glass.scattering_per_mm[5], 0.003 + 0.03 * glass.scattering_per_mm[5])
            << name;
        double squares = 0;
        for (int b = 0; b < kBandCount; ++b) {
            const double off = found.transmittance[b] - std::exp(-3 * glass.absorption_per_mm[b]);
            squares += off * off / kBandCount;
        }
        EXPECT_LT(std::sqrt(squares), 0.01) << name;
    }
}

TEST(GlassPair, RefusesBlackBrighterThanWhite) {
    GlassPair pair;
    pair.over_white = SampledSpectrum(0.2f);
    pair.over_black = SampledSpectrum(0.3f);
    EXPECT_THROW(glass_of_pair(pair), std::invalid_argument);
}

}  // namespace
}  // namespace rakelight
