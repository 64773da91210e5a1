// Entries of a stock library: what is written is read again as the same material, by every key that it needs.
#include "output/stock/library_entry.h"

#include <gtest/gtest.h>

#include <string>

#include "materials/stock/stock.h"
#include "scene/reading/stock/supplies.h"

namespace rakelight {
namespace {

void expect_same(const SampledSpectrum& a, const SampledSpectrum& b, float within, const std::string& name) {
    for (int i = 0; i < kBandCount; ++i) EXPECT_NEAR(a[i], b[i], within) << name << " band " << i;
}

TEST(LibraryEntry, EveryBuiltInMaterialComesBack) {
    for (const std::string& name : stock_names()) {
        const Material wanted = *find_stock(name);
        if (wanted.leaf != Leaf::none) continue;  // a treatment, not a body
        const std::string text = "stock:\n  " + quoted_key("of " + name) + ":\n" + body_text(wanted) +
                                 face_text(wanted) + "    provenance: guessed\n";
        const Supplies read = read_supplies(text, "library.yaml");
        const Material* found = read.stock.find("of " + name);
        ASSERT_NE(found, nullptr) << name;
        EXPECT_EQ(found->kind, wanted.kind) << name;
        EXPECT_EQ(found->opaque, wanted.opaque) << name;
        // Five digits are written.
        if (wanted.opaque) {
            expect_same(found->reflectance, wanted.reflectance, 1e-3f, name);
        } else {
            // A transmittance under 1e-6 is written as that.
            const float most = 13.8f / wanted.thickness_mm;
            expect_same(found->absorption_per_mm,
                        map(wanted.absorption_per_mm, [&](float a) { return std::min(a, most); }), 2e-3f,
                        name);
            expect_same(found->scattering_per_mm, wanted.scattering_per_mm, 1e-3f, name);
        }
        EXPECT_NEAR(found->thickness_mm, wanted.thickness_mm, 1e-3) << name;
        EXPECT_NEAR(found->index, wanted.index, 1e-4) << name;
        EXPECT_NEAR(found->roughness, wanted.roughness, 1e-4) << name;
        EXPECT_NEAR(found->ripple_deg, wanted.ripple_deg, 1e-3) << name;
        EXPECT_NEAR(found->glassy_share, wanted.glassy_share, 1e-4) << name;
        EXPECT_NEAR(found->grain.contrast, wanted.grain.contrast, 1e-4) << name;
    }
}

}  // namespace
}  // namespace rakelight
