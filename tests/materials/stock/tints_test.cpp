#include "materials/stock/tints.h"

#include <gtest/gtest.h>

#include <set>

#include "materials/optics/surface.h"

namespace rakelight {
namespace {

TEST(Tints, EveryTintIsWhole) {
    const std::vector<std::string> names = tint_names();
    EXPECT_EQ(std::set(names.begin(), names.end()).size(), names.size());
    InterfaceTables cache;
    for (const std::string& name : names) {
        const Material* m = find_tint(name);
        ASSERT_NE(m, nullptr);
        EXPECT_EQ(m->provenance, Provenance::invented);
        EXPECT_TRUE(m->opaque);
        EXPECT_EQ(m->kind, name.starts_with("epoxy-") ? Kind::epoxy : Kind::cement);
        EXPECT_NO_THROW(make_surface(*m, 5, SampledSpectrum(), 1, cache)) << name;
    }
    for (const char* name :
         {"white", "pale-grey", "mid-grey", "charcoal", "deep-blue", "sea-green", "sand", "brown"}) {
        EXPECT_NE(find_tint(name), nullptr) << name;
        EXPECT_NE(find_tint(std::string("epoxy-") + name), nullptr) << name;
    }
    EXPECT_EQ(find_tint("epoxy-"), nullptr);
}

// Under uniform light the body of the epoxy returns what the cement returns; the sheen comes on top.
TEST(Tints, EpoxyHasTheColourOfItsCement) {
    InterfaceTables cache;
    for (const std::string& name : tint_names()) {
        if (name.starts_with("epoxy-")) continue;
        const Surface cement = make_surface(*find_tint(name), 5, SampledSpectrum(), 1, cache);
        const Surface epoxy = make_surface(*find_tint("epoxy-" + name), 5, SampledSpectrum(), 1, cache);
        for (int b = 0; b < kBandCount; ++b) {
            const double dry = cement.even[b];  // a facet's
            const double body = epoxy.even[b] * (1 - epoxy.interface->mean_albedo);
            EXPECT_NEAR(body, dry, 1e-5) << name;
        }
    }
}

}  // namespace
}  // namespace rakelight
