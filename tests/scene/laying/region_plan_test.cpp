#include "scene/laying/region_plan.h"

#include <gtest/gtest.h>

#include "scene/model/layout.h"
#include "scene/opus/cutting.h"
#include "scene/text/diagnostics.h"
#include "tests/support/laying_samples.h"

namespace rakelight {
namespace {

TEST(RegionPlan, FirstFieldTakesItsOutlineTheNextTheRest) {
    Layout layout = sample_layout(Opus::tessellatum, 10, 10, 2);
    add_figure(layout, {.points_mm = {{100, 100}, {300, 100}, {300, 300}, {100, 300}}});
    const auto regions = plan_regions(layout, {});
    EXPECT_NEAR(area_mm2(regions[0]), 200 * 200, 1);
    // The rest, carried over the panel's edge by the part of a joint that drawing in takes off again.
    const double e = kDrawnIn * 2;
    EXPECT_NEAR(area_mm2(regions[1]), (600 + 2 * e) * (400 + 2 * e) - 200 * 200, 1);
}

TEST(RegionPlan, StonesAreKeptClearOf) {
    const Layout layout = sample_layout(Opus::tessellatum, 10, 10, 2);
    const auto regions = plan_regions(layout, {{{100, 100}, {140, 100}, {140, 140}, {100, 140}}});
    EXPECT_FALSE(contains(regions[0], {120, 120}));
    EXPECT_FALSE(contains(regions[0], {99.2, 120}));
    EXPECT_TRUE(contains(regions[0], {98.5, 120}));
}

TEST(RegionPlan, EveryFieldWithoutGroundIsReported) {
    Layout layout = sample_layout(Opus::tessellatum, 10, 10, 2);
    layout.fields.push_back(layout.fields[0]);
    layout.fields[1].name = "buried";
    layout.fields.push_back(layout.fields[0]);
    layout.fields[2].name = "off the panel";
    layout.fields[2].outline.points_mm = {{700, 0}, {800, 0}, {800, 100}};
    try {
        plan_regions(layout, {});
        FAIL() << "no error";
    } catch (const LayoutError& e) {
        EXPECT_EQ(e.problems().size(), 2u);
        EXPECT_EQ(e.problems()[0].key, "fields[2].outline");
    }
}

TEST(RegionPlan, FieldNarrowerThanAPieceIsReported) {
    Layout layout = sample_layout(Opus::tessellatum, 20, 20, 2);
    layout.fields[0].outline.points_mm = {{0, 0}, {300, 0}, {300, 9}, {0, 9}};
    EXPECT_THROW(plan_regions(layout, {}), LayoutError);
}

}  // namespace
}  // namespace rakelight
