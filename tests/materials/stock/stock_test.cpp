#include "materials/stock/stock.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "materials/colour/short_curve.h"
#include "materials/optics/surface.h"
#include "tests/support/optics_samples.h"

namespace rakelight {
namespace {

// Seen away from the mirrored light, near the normal.
double seen(const char* name, float backing = 0.5f) {
    FaceTables cache;
    const Material& m = *find_stock(name);
    const Surface s = make_surface(m, m.thickness_mm, Bands(backing), 1, cache);
    return luminous(directional_albedo(s, 0.9f) - Bands(1 - s.entering(0.9f)));
}

TEST(Stock, EveryMaterialIsWhole) {
    const std::vector<std::string> names = stock_names();
    EXPECT_GE(names.size(), 22u);
    EXPECT_EQ(std::set(names.begin(), names.end()).size(), names.size());
    FaceTables cache;
    for (const std::string& name : names) {
        const Material* m = find_stock(name);
        ASSERT_NE(m, nullptr);
        EXPECT_EQ(m->name, name);
        EXPECT_EQ(m->provenance, Provenance::invented);
        EXPECT_TRUE(m->density_g_per_cm3 > 0.3f && m->density_g_per_cm3 < 4);
        EXPECT_TRUE(m->tone_spread >= 0 && m->tone_spread <= 0.25f);
        EXPECT_TRUE(m->grain.contrast >= 0 && m->grain.contrast <= 0.5f);
        EXPECT_NO_THROW(make_surface(*m, m->thickness_mm, Bands(0.4f), 1, cache)) << name;
    }
    EXPECT_EQ(find_stock("no such thing"), nullptr);
    EXPECT_EQ(find_stock(""), nullptr);
}

// Ranges of luminous reflectance, dry and rough: common knowledge of the stones, no published table.
TEST(Stock, StonesAreAsPaleAsTheirKind) {
    const auto within = [](const char* name, double low, double high) {
        EXPECT_GE(seen(name), low) << name;
        EXPECT_LE(seen(name), high) << name;
    };
    within("slate", .08, .20);
    within("green-slate", .08, .20);
    within("basalt", .05, .12);
    within("pumice", .35, .60);
    within("scoria", .06, .15);
    within("limestone", .35, .65);
    within("gallery-white", .80, .84);
    within("warm-grey", .38, .42);
}

TEST(Stock, GlassesRunFromNearBlackToWhite) {
    for (const char* name : {"abyss", "deep-teal", "bottle-green", "ruby", "jet"})
        EXPECT_LT(seen(name, 0.3f), 0.04) << name;
    EXPECT_GT(seen("aqua", 0.8f), 0.25);
    EXPECT_GT(seen("foam-white"), 0.6);
    EXPECT_GT(seen("opal", 0.05f), 0.25);
}

TEST(ShortCurve, RunsThroughItsPoints) {
    const Bands b = bands_from_short({0, 5, 10, 15, 20, 25, 30});  // 0.1 per nm
    for (int i = 0; i < kBandCount; ++i) EXPECT_FLOAT_EQ(b[i], 2.f * static_cast<float>(i));
    EXPECT_EQ(bands_from_short({1, 1, 1, 1, 1, 1, 7})[15], 7);
}

}  // namespace
}  // namespace rakelight
