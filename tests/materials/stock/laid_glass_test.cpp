#include "materials/stock/laid_glass.h"

#include <gtest/gtest.h>

#include <stdexcept>

#include "materials/colour/illuminants.h"
#include "materials/colour/tristimulus_weights.h"
#include "materials/stock/face_on.h"
#include "materials/stock/stock.h"
#include "materials/stock/tints.h"

namespace rakelight {
namespace {

Bed bed(const char* name) {
    return {name, find_tint(name)->reflectance};
}

LaidGlassQuestion question(const char* glass) {
    LaidGlassQuestion q;
    q.glass = *find_stock(glass);
    q.beds = {bed("white"), bed("sand"), bed("charcoal"), bed("terracotta")};
    return q;
}

// Asked for the colour of a piece that was laid, it is laid so again (the way back of face_on.h, whose own
// judges are light's random walk and closed forms in materials/optics).
TEST(LaidGlass, FindsThicknessAndBed) {
    for (const auto& [glass, on, thickness_mm] :
         {std::tuple{"aqua", "sand", 3.7}, {"ruby", "white", 1.9}, {"opal", "charcoal", 2.5}}) {
        LaidGlassQuestion q = question(glass);
        const TristimulusWeights weights = tristimulus_weights(*find_illuminant("D65"));
        InterfaceTables faces;
        const auto v = integrate(
            weights, face_on_reflectance(q.glass, thickness_mm, find_tint(on)->reflectance, 1, faces));
        const auto w = integrate(weights, SampledSpectrum(1));
        q.lab = xyz_to_lab({v[0], v[1], v[2]}, {w[0], w[1], w[2]});
        const auto ways = ways_to_lay(q);
        ASSERT_EQ(ways.size(), 4u);
        EXPECT_EQ(ways[0].bed, on);
        EXPECT_NEAR(ways[0].thickness_mm, thickness_mm, 0.03) << glass;
        EXPECT_LT(ways[0].off, 0.05) << glass;
        for (std::size_t i = 1; i < 4; ++i) EXPECT_GE(ways[i].off, ways[i - 1].off);
        q.fixed_mm = thickness_mm;
        EXPECT_EQ(ways_to_lay(q)[0].bed, on);
        EXPECT_EQ(ways_to_lay(q)[0].thickness_mm, thickness_mm);
    }
}

// Clear glass that absorbs deepens with thickness (Bouguer-Lambert), so a darker wish is thicker.
TEST(LaidGlass, LightnessAlone) {
    double last_mm = 0;
    for (const double lightness : {55.0, 45.0, 35.0, 25.0}) {
        LaidGlassQuestion q = question("sea-green");
        q.beds = {bed("white")};
        q.lightness = lightness;
        const auto ways = ways_to_lay(q);
        EXPECT_NEAR(ways[0].lab.l, lightness, 0.2);
        EXPECT_GT(ways[0].thickness_mm, last_mm);
        last_mm = ways[0].thickness_mm;
    }
}

TEST(LaidGlass, Refuses) {
    EXPECT_THROW(ways_to_lay(question("jet")), std::invalid_argument);
    LaidGlassQuestion q = question("aqua");
    q.light = "moonshine";
    EXPECT_THROW(ways_to_lay(q), std::invalid_argument);
    q = question("aqua");
    q.beds.clear();
    EXPECT_THROW(ways_to_lay(q), std::invalid_argument);
}

}  // namespace
}  // namespace rakelight
