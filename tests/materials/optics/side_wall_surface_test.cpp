// What the grout at its sides does to the body of a piece of glass.
#include <gtest/gtest.h>

#include "materials/optics/surface.h"

namespace rakelight {
namespace {

Material glass(float absorption_per_mm) {
    Material m;
    m.name = "glass";
    m.kind = Kind::glass;
    m.opaque = false;
    m.index = 1.52f;
    for (int b = 0; b < kBandCount; ++b)  // more in the red: a blue glass
        m.absorption_per_mm[b] = absorption_per_mm * static_cast<float>(b) / (kBandCount - 1);
    return m;
}

// Nothing absorbs: all light comes back, whatever part of it meets a side.
TEST(SideWallSurface, AWhiteFurnaceStaysWhite) {
    FaceTables faces;
    for (const double share : {0.0, 0.3, 1.0}) {
        const Surface s = make_surface(glass(0), 4, Bands(1.0f), 1, faces, {Bands(1.0f), share});
        for (const float z : {0.1f, 0.5f, 1.0f})
            for (int b = 0; b < kBandCount; ++b) EXPECT_NEAR(directional_albedo(s, z)[b], 1, 2e-3);
    }
}

// All by the sides is a layer half as thick over the grout; a share is as much of each.
TEST(SideWallSurface, IsAMixOfTheBedAndOfHalfTheWayOverTheGrout) {
    FaceTables faces;
    const Material m = glass(0.4f);
    const Surface bed = make_surface(m, 4, Bands(0.6f), 1, faces);
    const Surface side = make_surface(m, 2, Bands(0.2f), 1, faces);
    for (const double share : {0.0, 0.25, 1.0}) {
        const Surface s = make_surface(m, 4, Bands(0.6f), 1, faces, {Bands(0.2f), share});
        const auto part = static_cast<float>(share);
        for (const float z : {0.3f, 0.7f, 1.0f})
            for (int b = 0; b < kBandCount; ++b)
                EXPECT_NEAR(
                    directional_albedo(s, z)[b],
                    (1 - part) * directional_albedo(bed, z)[b] + part * directional_albedo(side, z)[b], 2e-3)
                    << share << " " << z << " " << b;
    }
}

TEST(SideWallSurface, RefusesWhatIsNoShare) {
    FaceTables faces;
    EXPECT_THROW(make_surface(glass(0.4f), 4, Bands(0.6f), 1, faces, {Bands(0.2f), 1.5}),
                 std::invalid_argument);
    EXPECT_THROW(make_surface(glass(0.4f), 4, Bands(0.6f), 1, faces, {Bands(1.2f), 0.5}),
                 std::invalid_argument);
}

}  // namespace
}  // namespace rakelight
